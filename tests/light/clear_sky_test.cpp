#include "sunfleck/light/clear_sky.h"

#include "sunfleck/exposure/exposure.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <string>
#include <vector>

using namespace sunfleck;
using namespace sunfleck::light;

namespace {

struct HaurwitzRow {
    double apparent_zenith_deg = 0.0;
    double global_w_m2 = 0.0;
};

/// First and last column of tests/data/clearsky_ineichen_haurwitz.csv.
std::vector<HaurwitzRow> haurwitz_rows() {
    std::ifstream file(std::string(SUNFLECK_TEST_DATA) + "/clearsky_ineichen_haurwitz.csv");
    std::string line;
    std::getline(file, line);
    std::vector<HaurwitzRow> rows;
    while (std::getline(file, line)) {
        rows.push_back({std::stod(line.substr(0, line.find(','))),
                        std::stod(line.substr(line.rfind(',') + 1))});
    }
    return rows;
}

const sun::Place london{Latitude::degrees(51.5), Longitude::degrees(-0.3), 20.0};

ClearDay clear_day_at(const sun::Place& place, Date date) {
    return ClearDay(date, sun::sun_day(date, place), place);
}

/// A day with one span of sun of the given transmittance, cut into its hours.
exposure::DayExposure day_with_sun(Date date, UtcSeconds from, UtcSeconds to,
                                   double transmittance) {
    exposure::DayExposure day;
    day.date = date;
    day.spans.push_back({exposure::SunState::full, from, to, transmittance});
    const double midnight = static_cast<double>(days_since_1970(date)) * 86400.0;
    for (int hour = 0; hour < 24; ++hour) {
        exposure::HourExposure entry;
        entry.hour = hour;
        entry.from = UtcSeconds::since_1970(midnight + 3600.0 * hour);
        const double seconds = std::max(0.0, std::min(to, entry.from.plus_seconds(3600.0))
                                                 .seconds_after(std::max(from, entry.from)));
        entry.minutes.effective_min = transmittance * seconds / 60.0;
        day.hours.push_back(entry);
    }
    return day;
}

}  // namespace

TEST_CASE("Haurwitz' clear sky agrees with the published formula's table", "[light][published]") {
    // Generated with pvlib-python (commit 6382338a), printed to 7 digits; relative 1e-5.
    const std::vector<HaurwitzRow> rows = haurwitz_rows();
    REQUIRE(rows.size() == 40);
    for (const HaurwitzRow& row : rows) {
        CAPTURE(row.apparent_zenith_deg);
        CHECK(haurwitz_global_w_m2(Angle::degrees(90.0 - row.apparent_zenith_deg)) ==
              Approx(row.global_w_m2).epsilon(1e-5));
    }
    CHECK(haurwitz_global_w_m2(Angle::degrees(0.0)) <= 0.0);
    CHECK(haurwitz_global_w_m2(Angle::degrees(-12.0)) <= 0.0);
}

TEST_CASE("photons per watt-hour follow the published factor", "[light][published]") {
    // Faust & Logan (2018) print 0.007265 mol/Wh; their parts, 45 % at 4.48 umol/J, make
    // 0.45 x 4.48 x 3600e-6 = 0.0072576, 0.1 % apart.
    CHECK(dli_mol_per_wh == Approx(0.45 * 4.48 * 3600e-6).epsilon(0.0015));
    // Worked: 20 MJ of global light a day, 2.016 umol/J.
    CHECK(20e6 / 3600.0 * dli_mol_per_wh == Approx(20.0 * 2.016).epsilon(0.0015));
}

TEST_CASE("a clear day adds up from its parts", "[light][property]") {
    const ClearDay day = clear_day_at(london, make_date(2026, 6, 21));
    const UtcSeconds noon = day.sun_day().solar_noon;
    const double morning = day.light_wh_m2(day.sun_day().up_from, noon);
    const double afternoon = day.light_wh_m2(noon, day.sun_day().up_to);
    CHECK(morning + afternoon == Approx(day.open_light_wh_m2()));
    CHECK(morning == Approx(afternoon).epsilon(0.005));
    CHECK(day.light_wh_m2(noon, noon.plus_seconds(-60.0)) <= 0.0);
    CHECK(day.light_wh_m2(UtcSeconds::since_1970(0.0), noon) == Approx(morning));
    // Outdoor light at midsummer in mid-latitudes is 50 to 60 mol a day (common practice; a
    // cloudless day may pass it a little).
    CHECK(day.open_light_wh_m2() * dli_mol_per_wh > 50.0);
    CHECK(day.open_light_wh_m2() * dli_mol_per_wh < 65.0);
}

TEST_CASE("the day's light agrees with a fine sum over the noon cosine", "[light][cross]") {
    // At the equator on an equinox the sun climbs 15 degrees an hour through the zenith, to
    // within the equation of time: integral of Haurwitz over sin(altitude) = cos(hour angle).
    double expected_wh_m2 = 0.0;
    for (int minute = -360; minute < 360; ++minute) {
        const double altitude_deg = 90.0 - std::abs(minute + 0.5) / 4.0;
        expected_wh_m2 += haurwitz_global_w_m2(Angle::degrees(altitude_deg)) / 60.0;
    }
    const sun::Place equator{Latitude::degrees(0.0), Longitude::degrees(0.0), 0.0};
    const ClearDay day = clear_day_at(equator, make_date(2026, 3, 20));
    CHECK(day.open_light_wh_m2() == Approx(expected_wh_m2).epsilon(0.002));
}

TEST_CASE("an open spot gets the whole day, a net its share", "[light][property]") {
    const ClearDay clear_day = clear_day_at(london, make_date(2026, 9, 22));
    const UtcSeconds from = clear_day.sun_day().up_from;
    const UtcSeconds to = clear_day.sun_day().up_to;
    const double open = sun_light_wh_m2(day_with_sun(clear_day.date(), from, to, 1.0), clear_day);
    CHECK(open == Approx(clear_day.open_light_wh_m2()).epsilon(1e-9));
    const double net = sun_light_wh_m2(day_with_sun(clear_day.date(), from, to, 0.6), clear_day);
    CHECK(net == Approx(0.6 * open).epsilon(1e-9));
    CHECK(sun_light_wh_m2(day_with_sun(clear_day.date(), from, from, 1.0), clear_day) <= 0.0);
}

TEST_CASE("noon hours count more than the same hours of morning", "[light][property]") {
    const ClearDay clear_day = clear_day_at(london, make_date(2026, 6, 21));
    const UtcSeconds noon = clear_day.sun_day().solar_noon;
    const auto light_of = [&](double from_h, double to_h) {
        return sun_light_wh_m2(day_with_sun(clear_day.date(), noon.plus_seconds(3600.0 * from_h),
                                            noon.plus_seconds(3600.0 * to_h), 1.0),
                               clear_day);
    };
    // Six hours 6 to 12 and six hours 10 to 16 (solar) differ markedly in energy.
    CHECK(light_of(-2.0, 4.0) > 1.2 * light_of(-6.0, 0.0));
    // Part hours are taken where the sun was, not at the hour's mean.
    CHECK(light_of(-7.3, -6.7) == Approx(clear_day.light_wh_m2(noon.plus_seconds(-7.3 * 3600.0),
                                                               noon.plus_seconds(-6.7 * 3600.0)))
                                      .epsilon(1e-6));
}

TEST_CASE("polar night has no light and no length", "[light][property]") {
    const sun::Place north{Latitude::degrees(75.0), Longitude::degrees(20.0), 0.0};
    const ClearDay day = clear_day_at(north, make_date(2026, 12, 21));
    CHECK(day.open_light_wh_m2() <= 0.0);
    CHECK(day.sun_up_min() <= 0.0);
}
