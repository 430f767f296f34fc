#include "sunfleck/geometry/horizon.h"

#include "base/within.h"
#include "geometry/garden_cases.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::geometry;
using sunfleck::test::within;

namespace {

Horizon with_profile(const std::vector<std::pair<double, double>>& points) {
    Horizon horizon;
    for (const auto& [azimuth, altitude] : points) {
        horizon.profile.push_back({Angle::degrees(azimuth), Angle::degrees(altitude)});
    }
    return horizon;
}

double altitude_deg(const Horizon& horizon, double azimuth_deg) {
    return horizon_altitude(horizon, Angle::degrees(azimuth_deg)).in_degrees();
}

}  // namespace

TEST_CASE("the horizon is straight between its points, over north too", "[geometry][property]") {
    const Horizon horizon = with_profile({{10, 2}, {90, 6}, {350, 4}});
    CHECK(altitude_deg(horizon, 10) == Approx(2.0));
    CHECK(altitude_deg(horizon, 50) == Approx(4.0));
    CHECK(altitude_deg(horizon, 90) == Approx(6.0));
    CHECK(altitude_deg(horizon, 220) == Approx(5.0));
    CHECK(altitude_deg(horizon, 0) == Approx(3.0));
    CHECK(altitude_deg(horizon, 360) == Approx(3.0));
    CHECK(altitude_deg(horizon, 355) == Approx(3.5));
    CHECK(altitude_deg(horizon, -5) == Approx(3.5));
    CHECK(altitude_deg(with_profile({{123, 7}}), 300) == Approx(7.0));
    CHECK(altitude_deg(with_profile({{0, 1}, {180, 5}, {360, 1}}), 359.9) ==
          Approx(1.0 + 4.0 * 0.1 / 180.0));
    CHECK(altitude_deg({}, 300) == Approx(0.0));
}

TEST_CASE("a slope hides the sky uphill and lends none downhill", "[geometry][property]") {
    scene::Scene scene;
    scene.ground = {Angle::degrees(12.0), Angle::degrees(45.0)};
    const auto garden = build_garden(scene);
    REQUIRE(garden);
    const Horizon& horizon = garden->horizon;
    CHECK(altitude_deg(horizon, 225) == Approx(12.0));
    CHECK(altitude_deg(horizon, 45) == within(0.0, 1e-12));
    CHECK(altitude_deg(horizon, 135) == within(0.0, 1e-12));
    // tan(altitude) = tan(slope) cos(turn from uphill)
    CHECK(std::tan(altitude_deg(horizon, 195) * std::numbers::pi / 180.0) ==
          Approx(std::tan(Angle::degrees(12.0).in_radians()) * std::sqrt(0.75)));
}

TEST_CASE("sky is seen exactly above the horizon's altitude", "[geometry][property]") {
    scene::Scene scene;
    scene.ground = {Angle::degrees(5.0), Angle::degrees(100.0)};
    scene.site.horizon = with_profile({{0, 2}, {90, 3.5}, {180, 4}, {270, -3}}).profile;
    const auto garden = build_garden(scene);
    REQUIRE(garden);
    for (double azimuth = 0.0; azimuth < 360.0; azimuth += 3.7) {
        const double edge = altitude_deg(garden->horizon, azimuth);
        CAPTURE(azimuth, edge);
        CHECK(is_over_horizon(garden->horizon, to_sun(edge + 1e-6, azimuth)));
        CHECK_FALSE(is_over_horizon(garden->horizon, to_sun(edge - 1e-6, azimuth)));
    }
    CHECK(is_over_horizon(garden->horizon, {0.0, 0.0, 1.0}));
    CHECK_FALSE(is_over_horizon(garden->horizon, {0.0, 0.0, -1.0}));
}
