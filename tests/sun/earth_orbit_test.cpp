#include "sun/earth_orbit.h"

#include "base/within.h"
#include "sun/published_examples.h"
#include "sun/turn.h"
#include "sunfleck/base/units.h"

#include <catch2/catch.hpp>
#include <erfa.h>

#include <algorithm>
#include <array>
#include <cmath>

using namespace sunfleck;
using namespace sunfleck::sun;
using namespace sunfleck::sun::test;
using sunfleck::test::within;

namespace {

/// The Earth from the sun by ERFA: ecliptic and mean equinox of date (IAU 2006).
EarthOrbit erfa_orbit(double jd_tt) {
    std::array<std::array<double, 3>, 2> heliocentric{};
    std::array<std::array<double, 3>, 2> barycentric{};
    std::array<std::array<double, 3>, 3> turn{};
    std::array<double, 3> place{};
    eraEpv00(jd_tt, 0.0, reinterpret_cast<double(*)[3]>(heliocentric.data()),
             reinterpret_cast<double(*)[3]>(barycentric.data()));
    eraEcm06(jd_tt, 0.0, reinterpret_cast<double(*)[3]>(turn.data()));
    eraRxp(reinterpret_cast<double(*)[3]>(turn.data()), heliocentric[0].data(), place.data());
    EarthOrbit orbit;
    eraP2s(place.data(), &orbit.longitude_rad, &orbit.latitude_rad, &orbit.radius_au);
    return orbit;
}

}  // namespace

// NREL/TP-560-34302 (2008), table A5.1: every term of L, B and R in one example, printed to 1e-10.
TEST_CASE("the Earth's place is that of NREL's worked example to all digits", "[sun][published]") {
    const auto expected = [](const char* key) {
        return published("NREL SPA worked example", "outputs", key);
    };
    // Julian day 2452930.312847 and 67 s, in millennia after J2000.0.
    const double jde = 2452930.312847222 + 67.0 / 86400.0;
    const EarthOrbit orbit = earth_orbit((jde - 2451545.0) / 365250.0);
    CHECK(Angle::radians(full_turn_rad(orbit.longitude_rad)).in_degrees() ==
          within(expected("L_deg"), 1e-9));
    CHECK(Angle::radians(orbit.latitude_rad).in_degrees() == within(expected("B_deg"), 1e-10));
    CHECK(orbit.radius_au == within(expected("R_au"), 1e-10));
}

TEST_CASE("the Earth's place follows ERFA's within an arcsecond from 1900 to 2100",
          "[sun][cross]") {
    constexpr double arcsec_rad = Angle::degrees(1.0 / 3600.0).in_radians();
    double worst_longitude = 0.0;
    double worst_latitude = 0.0;
    double worst_radius = 0.0;
    for (double day = -36525.0; day <= 36525.0; day += 17.3) {
        const EarthOrbit ours = earth_orbit(day / 365250.0);
        const EarthOrbit truth = erfa_orbit(2451545.0 + day);
        // The two equinoxes part by 0.3004" a century (see apparent_sun.cpp).
        const double longitude = ours.longitude_rad - 0.3004 * arcsec_rad * day / 36525.0;
        worst_longitude =
            std::max(worst_longitude, std::fabs(half_turn_rad(longitude - truth.longitude_rad)));
        worst_latitude =
            std::max(worst_latitude, std::fabs(ours.latitude_rad - truth.latitude_rad));
        worst_radius = std::max(worst_radius, std::fabs(ours.radius_au - truth.radius_au));
    }
    // NREL keeps terms down to 25e-8 rad (0.05"); the many left out add up to some 0.6".
    CHECK(worst_longitude / arcsec_rad < 0.7);
    CHECK(worst_latitude / arcsec_rad < 0.35);
    CHECK(worst_radius < 4e-6);
}
