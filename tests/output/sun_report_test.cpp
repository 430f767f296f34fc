#include "sunfleck/output/sun_report.h"

#include "base/within.h"
#include "sunfleck/base/csv.h"
#include "sunfleck/output/text_table.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <sstream>

using namespace sunfleck;
using namespace sunfleck::output;
using nlohmann::json;
using sunfleck::test::within;

namespace {

SunPlace place(double latitude_deg, double longitude_deg, const char* zone) {
    return {.name = "Fern Yard",
            .place = {.latitude = Latitude::degrees(latitude_deg),
                      .longitude = Longitude::degrees(longitude_deg),
                      .elevation_m = 20.0},
            .zone = sun::TimeZone::find(zone).value(),
            .air = {}};
}

SunPlace london() {
    return place(51.5, -0.3, "Europe/London");
}

SunPlace longyearbyen() {
    return place(78.2, 15.6, "Arctic/Longyearbyen");
}

std::vector<SunDate> one_day(const SunPlace& where, Date date) {
    return sun_dates(date, date, where);
}

int widest_line(const std::string& text) {
    int widest = 0;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        widest = std::max(widest, display_width(line));
    }
    return widest;
}

std::vector<std::string> keys_of(const json& object) {
    std::vector<std::string> keys;
    for (const auto& [key, value] : object.items()) keys.push_back(key);
    return keys;
}

const std::vector<std::string> instant_keys{"altitude_apparent_deg", "altitude_true_deg",
                                            "azimuth_deg",           "declination_deg",
                                            "distance_au",           "equation_of_time_min",
                                            "hour_angle_deg",        "local",
                                            "right_ascension_deg",   "utc"};

}  // namespace

TEST_CASE("a day's JSON has every promised key and one instant per clock hour",
          "[output][property]") {
    const auto dates = one_day(london(), make_date(2026, 10, 25));
    const json answer =
        json::parse(sun_dates_json({.command = "sun", .year = 2026}, london(), dates));
    CHECK(answer["latitude_deg"] == 51.5);
    CHECK(answer["longitude_deg"] == -0.3);
    CHECK(answer["elevation_m"] == 20.0);
    const json& day = answer["days"].at(0);
    CHECK(keys_of(day) == std::vector<std::string>{
                              "civil_dawn_local", "civil_dawn_utc", "civil_dusk_local",
                              "civil_dusk_utc", "date", "day_length_h", "hours",
                              "noon_altitude_deg", "solar_noon_local", "solar_noon_utc", "state",
                              "sunrise_local", "sunrise_utc", "sunset_local", "sunset_utc"});
    CHECK(day["date"] == "2026-10-25");
    CHECK(day["state"] == "normal");
    REQUIRE(day["hours"].size() == 25);  // the clock goes back
    CHECK(keys_of(day["hours"][0]) == instant_keys);
    CHECK(day["hours"][1]["local"] == "2026-10-25T01:00:00.000+01:00");
    CHECK(day["hours"][2]["local"] == "2026-10-25T01:00:00.000+00:00");
}

TEST_CASE("what a polar day lacks is null, never left out", "[output][property]") {
    struct Case {
        Date date;
        const char* state;
        double day_length_h;
        const char* sentence;
    };
    for (const Case& c :
         {Case{make_date(2026, 6, 21), "polar_day", 24.0, "The sun does not set on 21 June."},
          Case{make_date(2026, 12, 21), "polar_night", 0.0,
               "The sun does not rise on 21 December."}}) {
        const auto dates = one_day(longyearbyen(), c.date);
        const json day =
            json::parse(sun_dates_json({.command = "sun"}, longyearbyen(), dates))["days"][0];
        CHECK(day["state"] == c.state);
        CHECK(day["day_length_h"].get<double>() == within(c.day_length_h, 1e-9));
        for (const char* key : {"sunrise_utc", "sunset_utc", "sunrise_local", "civil_dawn_utc"}) {
            CHECK(day.at(key).is_null());
        }
        CHECK(day["solar_noon_utc"].is_string());
        CHECK(sun_dates_text(longyearbyen(), dates, "").find(c.sentence) != std::string::npos);
    }
}

TEST_CASE("the tables of the sun fit 80 columns everywhere", "[output][property]") {
    const SunPlace long_name = [] {
        SunPlace where = place(-54.8019, -68.3030, "America/Argentina/ComodRivadavia");
        where.name = "A garden with a very long name at the far end of the inhabited world";
        return where;
    }();
    for (const SunPlace& where : {london(), longyearbyen(), long_name}) {
        CHECK(widest_line(sun_dates_text(where, one_day(where, make_date(2026, 4, 18)),
                                         "The year's longest day; --date takes another.")) <= 80);
        CHECK(widest_line(sun_dates_text(
                  where, sun_dates(make_date(2026, 4, 10), make_date(2026, 4, 28), where), "")) <=
              80);
        std::vector<SunInstant> instants;
        for (int h = 0; h < 24; ++h) {
            instants.push_back(sun_instant(UtcSeconds::since_1970(1.79e9 + 3600.0 * h), where));
        }
        CHECK(widest_line(sun_instants_text(where, instants)) <= 80);
    }
}

TEST_CASE("CSV and JSON of instants hold the same values in the order asked",
          "[output][property]") {
    std::vector<SunInstant> instants;
    for (const double t : {1.79e9, 1.50e9, 1.79e9 + 43200.25}) {
        instants.push_back(sun_instant(UtcSeconds::since_1970(t), london()));
    }
    const json objects =
        json::parse(sun_instants_json({.command = "sun"}, london(), instants))["instants"];
    const auto table = parse_csv(sun_instants_csv(london(), instants), "answer");
    REQUIRE(table);
    REQUIRE(table->rows.size() == 4);
    REQUIRE(objects.size() == 3);
    const CsvRow& head = table->rows[0];
    REQUIRE(head.fields.size() == instant_keys.size());
    for (std::size_t row = 0; row < 3; ++row) {
        for (std::size_t i = 0; i < head.fields.size(); ++i) {
            const json& value = objects[row].at(head.fields[i].text);
            const std::string& cell = table->rows[row + 1].fields[i].text;
            CAPTURE(row, head.fields[i].text);
            CHECK((value.is_string()
                       ? value.get<std::string>() == cell
                       : std::stod(cell) == Approx(value.get<double>()).epsilon(1e-15)));
        }
    }
    CHECK(objects[1]["utc"] == "2017-07-14T02:40:00.000Z");
}

TEST_CASE("a day's CSV repeats the day beside each of its hours", "[output][property]") {
    const auto dates = sun_dates(make_date(2026, 3, 28), make_date(2026, 3, 29), london());
    const auto table = parse_csv(sun_dates_csv(london(), dates), "answer");
    REQUIRE(table);
    CHECK(table->rows.size() == 1 + 24 + 23);
    CHECK(table->rows[24].fields[0].text == "2026-03-28");
    CHECK(table->rows[25].fields[0].text == "2026-03-29");
}

// Solar noon by hand: 12:00 + 1.2 min of longitude + 1.8 min of equation of time + an hour of
// summer time. The other times are proved in sun_day_test.
TEST_CASE("a day is told in words, by the clock", "[output][property]") {
    const std::string text =
        sun_dates_text(london(), one_day(london(), make_date(2026, 6, 21)), "");
    for (const char* part : {"The sun on 21 June 2026", "Sunrise     04:44  in the north-east",
                             "Solar noon  13:03  62° high, in the south", "Sunset      21:22",
                             "Hot hours   12:05 to 17:05", "Clock of Europe/London"}) {
        CAPTURE(part);
        CHECK(text.find(part) != std::string::npos);
    }
}

TEST_CASE("the pressure of the air bends only the height that is seen", "[output][property]") {
    SunPlace thin = london();
    thin.air = {.pressure_hpa = 505.0, .temperature_c = 10.0};
    const UtcSeconds dawn = UtcSeconds::since_1970(1782014400.0 + 5 * 3600.0);
    const SunInstant full = sun_instant(dawn, london());
    const SunInstant half = sun_instant(dawn, thin);
    CHECK(full.position.altitude_true == half.position.altitude_true);
    const double lift = (full.altitude_apparent - full.position.altitude_true).in_degrees();
    CHECK((half.altitude_apparent - half.position.altitude_true).in_degrees() ==
          Approx(0.5 * lift).epsilon(1e-9));
}
