#include "sunfleck/sun/sun_day.h"

#include "base/within.h"
#include "sun/sun_table_row.h"
#include "sunfleck/sun/solar_position.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <vector>

using namespace sunfleck;
using namespace sunfleck::sun;
using namespace sunfleck::sun::test;
using sunfleck::test::within;

namespace {

const std::map<std::string, DayState> state_names{{"normal", DayState::normal},
                                                  {"polar_day", DayState::polar_day},
                                                  {"polar_night", DayState::polar_night},
                                                  {"rise_only", DayState::rise_only},
                                                  {"set_only", DayState::set_only}};

SunDay day_of(const Row& row) {
    return sun_day(parse_date(row.text("local_date")).value(), place_of(row));
}

bool is_grazing(const Row& row) {
    return row.text("grazing") == "1";
}

/// Seconds between a crossing and the table's; both must exist or be missing together.
void check_crossing(const std::optional<UtcSeconds>& found, const Row& row,
                    const std::string& column, double tolerance_s) {
    CAPTURE(column);
    CHECK(found.has_value() == row.has(column));
    if (!found || !row.has(column)) return;
    CHECK(std::fabs(found->seconds_after(instant_of(row.text(column)))) <= tolerance_s);
}

}  // namespace

// sun_rise_transit_set.csv: ERFA 2.0.0, bisection, printed to 0.1 s. The sun moves 0.0042 degrees
// a second in hour angle, so 0.0003 degrees of position is 0.15 s where it sinks at 30 degrees to
// the horizon (latitude 60) and 1 s where it sinks at 4; grazing rows may be 10 minutes off.
TEST_CASE("rise, noon and set of every row of the table are met", "[sun][cross]") {
    const auto rows = read_table("sun_rise_transit_set.csv");
    REQUIRE(rows.size() == 168);
    for (const Row& row : rows) {
        CAPTURE(row.text("place"), row.text("local_date"), row.text("grazing"));
        const SunDay day = day_of(row);
        const bool is_far_north = std::fabs(row.number("lat_deg")) > 61.0;
        const double tolerance_s = is_grazing(row) ? 600.0 : is_far_north ? 1.0 : 0.25;
        CHECK(day.state == state_names.at(row.text("state")));
        check_crossing(day.sunrise, row, "sunrise_utc", tolerance_s);
        check_crossing(day.sunset, row, "sunset_utc", tolerance_s);
        check_crossing(day.solar_noon, row, "transit_utc", 0.2);
        CHECK(day.noon_altitude.in_degrees() ==
              within(row.number("transit_elevation_true_deg"), 3e-4));
        if (!row.has("day_length_h")) continue;
        CHECK(day.day_length_h() == within(row.number("day_length_h"), 2.0 * tolerance_s / 3600.0));
    }
}

namespace {

/// A clock reading of the source, as seconds of the day at a fixed offset from UTC.
struct PublishedDay {
    double latitude_deg;
    double longitude_deg;
    Date date;
    double offset_h;
    double sunrise_h;
    double sunset_h;
    double tolerance_s;
    const char* source;
};

double clock_h(int hour, int minute, double second = 0.0) {
    return hour + minute / 60.0 + second / 3600.0;
}

}  // namespace

TEST_CASE("sunrise and sunset are the published ones", "[sun][published]") {
    const char* nrel = "NREL/TP-560-34302 (2008), table A2.1";
    const char* usno = "US Naval Observatory, to the minute; it takes the same -50'";
    const char* web = "NREL SPA web calculator";
    const std::vector<PublishedDay> days{
        {35, 0, make_date(1994, 1, 2), 0, clock_h(7, 8, 12.8), clock_h(16, 59, 55.9), 2, nrel},
        {-35, 0, make_date(1996, 7, 5), 0, clock_h(7, 8, 15.4), clock_h(17, 1, 4.5), 2, nrel},
        {39, -105, make_date(2015, 1, 2), -7, clock_h(7, 19), clock_h(16, 49), 40, usno},
        {39, -105, make_date(2015, 4, 2), -7, clock_h(5, 43), clock_h(18, 24), 40, usno},
        {39, -105, make_date(2015, 8, 2), -7, clock_h(5, 1), clock_h(19, 10), 40, usno},
        {39, -105, make_date(2015, 12, 2), -7, clock_h(7, 1), clock_h(16, 38), 40, usno},
        {39.742476, -105.1786, make_date(2015, 1, 2), -7, clock_h(7, 21, 55), clock_h(16, 47, 43),
         2, web}};
    for (const PublishedDay& row : days) {
        CAPTURE(row.source, iso_date(row.date), row.latitude_deg);
        const SunDay day = sun_day(row.date, {.latitude = Latitude::degrees(row.latitude_deg),
                                              .longitude = Longitude::degrees(row.longitude_deg)});
        REQUIRE(day.state == DayState::normal);
        const auto midnight =
            UtcSeconds::since_1970(days_since_1970(row.date) * 86400.0 - row.offset_h * 3600.0);
        CHECK(day.sunrise->seconds_after(midnight) ==
              within(row.sunrise_h * 3600.0, row.tolerance_s));
        CHECK(day.sunset->seconds_after(midnight) ==
              within(row.sunset_h * 3600.0, row.tolerance_s));
    }
}

TEST_CASE("every day of a year has its events in order and its noon is its own",
          "[sun][property]") {
    for (const double latitude : {0.0, 23.0, 51.5, 66.5, 70.0, 85.0, 89.9, 90.0, -33.0, -78.0}) {
        const Place place{.latitude = Latitude::degrees(latitude),
                          .longitude = Longitude::degrees(17.0)};
        std::optional<UtcSeconds> last_noon;
        for (int i = 0; i < 366; ++i) {
            const SunDay day = sun_day(add_days(make_date(2026, 1, 1), i), place);
            CAPTURE(latitude, i);
            const bool dark = day.state == DayState::polar_night;
            const bool light = day.state == DayState::polar_day;
            CHECK(day.sunrise.has_value() ==
                  (day.state == DayState::normal || day.state == DayState::rise_only));
            CHECK(day.sunset.has_value() ==
                  (day.state == DayState::normal || day.state == DayState::set_only));
            CHECK(day.up_from <= day.up_to);
            CHECK(day.day_length_h() <= 24.0);
            CHECK((dark ? day.day_length_h() < 1e-9 : day.day_length_h() > 0.0));
            if (light) CHECK(day.day_length_h() == within(24.0, 1e-9));
            if (day.civil_dawn && day.sunrise) CHECK(*day.civil_dawn < *day.sunrise);
            if (day.civil_dusk && day.sunset) CHECK(*day.sunset < *day.civil_dusk);
            if (last_noon) {
                CHECK(day.solar_noon.seconds_after(*last_noon) == within(86400.0, 31.0));
            }
            last_noon = day.solar_noon;
        }
    }
}

TEST_CASE("the sun stands at its threshold at every crossing", "[sun][property]") {
    const Place place{.latitude = Latitude::degrees(60.0), .longitude = Longitude::degrees(-20.0)};
    for (int i = 0; i < 365; i += 13) {
        const SunDay day = sun_day(add_days(make_date(2026, 1, 1), i), place);
        REQUIRE(day.state == DayState::normal);
        for (const UtcSeconds t : {*day.sunrise, *day.sunset}) {
            CHECK(solar_position(t, place).altitude_true.in_degrees() == within(-0.8333, 1e-5));
        }
        if (day.civil_dawn) {
            CHECK(solar_position(*day.civil_dawn, place).altitude_true.in_degrees() ==
                  within(-6.0, 1e-5));
        }
        CHECK(std::fabs(solar_position(day.solar_noon, place).hour_angle.in_degrees()) < 1e-6);
    }
}

// The line islands keep the date of Asia at the longitude of Hawaii: their noon of a date is one
// day earlier in universal time than local mean time has it.
TEST_CASE("a civil date has the noon that its own clock shows", "[sun][property]") {
    const TimeZone kiritimati = TimeZone::find("Pacific/Kiritimati").value();
    const Place place{.latitude = Latitude::degrees(1.87), .longitude = Longitude::degrees(-157.4)};
    const SunDay day = sun_day(make_date(2026, 5, 4), place, kiritimati);
    CHECK(kiritimati.clock(day.solar_noon).date == make_date(2026, 5, 4));
    CHECK(iso_date(kiritimati.clock(sun_day(make_date(2026, 5, 4), place).solar_noon).date) ==
          "2026-05-05");
    const TimeZone london = TimeZone::find("Europe/London").value();
    const Place kew{.latitude = Latitude::degrees(51.5), .longitude = Longitude::degrees(-0.3)};
    CHECK(sun_day(make_date(2026, 6, 21), kew, london).solar_noon ==
          sun_day(make_date(2026, 6, 21), kew).solar_noon);
}

// Hot hours of the design's example: 51.5 N 0.3 W, 21 June, solar 11 to 16 is 12:05 to 17:05 by
// the summer clock, to 5 minutes.
TEST_CASE("solar hours are told by the clock", "[sun][property]") {
    const TimeZone london = TimeZone::find("Europe/London").value();
    const SunDay day = sun_day(make_date(2026, 6, 21), {.latitude = Latitude::degrees(51.5),
                                                        .longitude = Longitude::degrees(-0.3)});
    const int from = london.clock(solar_clock(day, 11.0)).seconds_of_day;
    const int to = london.clock(solar_clock(day, 16.0)).seconds_of_day;
    CHECK(std::abs(from - (12 * 3600 + 5 * 60)) <= 150);
    CHECK(std::abs(to - (17 * 3600 + 5 * 60)) <= 150);
    CHECK(to - from == 5 * 3600);
}

// Worked by spherical trigonometry: noon altitude 90 - |latitude - declination|, cos H0 =
// (sin(-0.833) - sin(lat) sin(dec)) / (cos(lat) cos(dec)); printed to 0.1 degrees and 0.1 h.
TEST_CASE("noon height and day length by latitude are those of the textbook formula",
          "[sun][published]") {
    struct Row {
        double latitude_deg, june_deg, june_h, equinox_deg, equinox_h, december_deg, december_h;
    };
    for (const Row& row :
         {Row{0, 66.6, 12.1, 90, 12.1, 66.6, 12.1}, Row{20, 86.6, 13.3, 70, 12.1, 46.6, 10.9},
          Row{30, 83.4, 14.1, 60, 12.1, 36.6, 10.2}, Row{40, 73.4, 15.0, 50, 12.1, 26.6, 9.3},
          Row{45, 68.4, 15.6, 45, 12.2, 21.6, 8.8}, Row{50, 63.4, 16.4, 40, 12.2, 16.6, 8.1},
          Row{55, 58.4, 17.4, 35, 12.2, 11.6, 7.2}, Row{60, 53.4, 18.9, 30, 12.2, 6.6, 5.9}}) {
        const Place place{.latitude = Latitude::degrees(row.latitude_deg)};
        const auto check = [&](Date date, double noon_deg, double length_h, double margin_deg) {
            CAPTURE(row.latitude_deg, iso_date(date));
            const SunDay day = sun_day(date, place);
            CHECK(day.noon_altitude.in_degrees() == within(noon_deg, margin_deg));
            CHECK(day.day_length_h() == within(length_h, 0.06));
        };
        check(make_date(2026, 6, 21), row.june_deg, row.june_h, 0.06);
        // The equinox of 2026 falls 2 h 46 after noon: the sun is still 0.05 degrees south.
        check(make_date(2026, 3, 20), row.equinox_deg, row.equinox_h, 0.1);
        check(make_date(2026, 12, 21), row.december_deg, row.december_h, 0.06);
    }
}
