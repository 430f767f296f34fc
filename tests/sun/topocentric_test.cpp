#include "sun/topocentric.h"

#include "base/within.h"
#include "sunfleck/sun/solar_position.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fstream>
#include <numbers>

using namespace sunfleck;
using namespace sunfleck::sun;
using sunfleck::test::within;

namespace {

constexpr double pi = std::numbers::pi;

Topocentric at_latitude(double latitude_deg) {
    return Topocentric({.latitude = Latitude::degrees(latitude_deg)});
}

double arcsec(double radians) {
    return Angle::radians(radians).in_degrees() * 3600.0;
}

}  // namespace

// Solar parallax 8.794143" (IAU 2009 astronomical constants, from the radius 6378136.6 m).
TEST_CASE("parallax lowers a setting sun on the equator by 8.794 arcsec", "[sun][published]") {
    const Vec3 sun = at_latitude(0.0).direction({.greenwich_hour_angle_rad = pi / 2.0});
    CHECK(arcsec(altitude_of(sun).in_radians()) == within(-8.794, 0.001));
}

TEST_CASE("parallax leaves the sun at the zenith and is halved at two au", "[sun][property]") {
    const LocalSun zenith = at_latitude(0.0).local({});
    CHECK(arcsec(pi / 2.0 - altitude_of(zenith.direction).in_radians()) == within(0.32, 0.01));
    const Vec3 far =
        at_latitude(0.0).direction({.greenwich_hour_angle_rad = pi / 2.0, .distance_au = 2.0});
    CHECK(arcsec(altitude_of(far).in_radians()) == within(-8.794 / 2.0, 0.001));
}

// Explanatory Supplement to the Astronomical Almanac (1992), 3.253: constant 0.3192".
TEST_CASE("diurnal aberration moves a sun in the meridian east by 0.319 arcsec cos latitude",
          "[sun][published]") {
    for (const double latitude : {0.0, 30.0, 60.0, -60.0}) {
        CAPTURE(latitude);
        const Vec3 sun = at_latitude(latitude).direction({});
        CHECK(arcsec(sun.x) == within(0.3192 * cos(Angle::degrees(latitude)), 0.002));
    }
}

TEST_CASE("directions and hour angles belong together", "[sun][property]") {
    const Topocentric here(
        {.latitude = Latitude::degrees(-37.8), .longitude = Longitude::degrees(145.0)});
    for (double gha = -9.0; gha < 9.0; gha += 0.37) {
        const GeocentricSun sun{.greenwich_hour_angle_rad = gha, .declination_rad = -0.35};
        const LocalSun local = here.local(sun);
        CHECK(local.direction == here.direction(sun));
        CHECK(local.hour_angle_rad > -pi);
        CHECK(local.hour_angle_rad <= pi);
        CHECK((local.direction.x < 0.0) == (local.hour_angle_rad > 0.0));  // west in the afternoon
        CHECK(length(local.direction) == within(1.0, 1e-14));
    }
}

// tests/data/shadow_geometry.json, cases "sun_angles": plane trigonometry without parallax or
// aberration; they reproduce Duffie & Beckman's examples 1.6.2 and 1.6.3 (from memory).
TEST_CASE("zenith distance and azimuth are those of the textbook triangle", "[sun][published]") {
    const auto cases =
        nlohmann::json::parse(std::ifstream(SUNFLECK_TEST_DATA "/shadow_geometry.json"))["cases"];
    // The sun so far away that parallax is nothing; diurnal aberration is 0.32".
    constexpr double far_au = 1e9;
    constexpr double tolerance_deg = 1e-5 + 0.32 / 3600.0;
    const auto radians = [](const nlohmann::json& degrees) {
        return Angle::degrees(degrees.get<double>()).in_radians();
    };
    int checked = 0;
    for (const auto& row : cases) {
        if (row["case"] != "sun_angles") continue;
        CAPTURE(row.dump());
        const auto& in = row["inputs"];
        const Vec3 sun = at_latitude(in["latitude_deg"])
                             .direction({.greenwich_hour_angle_rad = radians(in["hour_angle_deg"]),
                                         .declination_rad = radians(in["declination_deg"]),
                                         .distance_au = far_au});
        const double zenith_deg = row["outputs"]["zenith_deg"];
        const double azimuth_deg = row["outputs"]["azimuth_from_north_deg"];
        CHECK(90.0 - altitude_of(sun).in_degrees() == within(zenith_deg, tolerance_deg));
        CHECK(azimuth_of(sun).in_degrees() == within(azimuth_deg, 2.0 * tolerance_deg));
        ++checked;
    }
    CHECK(checked == 3);
}
