#include "base/within.h"
#include "geometry/garden_scenes.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::geometry;
using sunfleck::test::within;

namespace {

// Nothing nearer than this is met, so that a surface does not shade what stands on it.
constexpr double least_distance_m = 1e-6;

double height_over(const Garden& garden, double x, double y) {
    const auto is_over = [&](double z) {
        return !pass(garden.pieces.at(0), {}, {x, y, z}, {0.0, 0.0, 1.0}).is_met;
    };
    return edge_m(is_over, -5.0, 10.0) + least_distance_m;
}

const std::vector<Vec3> level_net = {{0, 0, 2.2}, {3, 0, 2.2}, {3, 2, 2.2}, {0, 2, 2.2}};

}  // namespace

TEST_CASE("a level net is plane and dims once", "[geometry][property]") {
    const Garden garden = garden_with(cloth_of(level_net, 0.4));
    const auto& sheet = std::get<Sheet>(garden.pieces.at(0).body);
    CHECK(sheet.is_planar);
    CHECK(sheet.facets.size() == 2);
    // Also on the diagonal that its two facets share.
    CHECK(light_at(garden, {1.5, 1.0, 0.0}, {0, 0, 1}) == Approx(0.6));
    CHECK(light_at(garden, {1.5, 1.0, 3.0}, {0, 0, 1}) == Approx(1.0));
    // In its own plane it is not met.
    CHECK(light_at(garden, {-1.0, 1.0, 2.2}, {1, 0, 0}) == Approx(1.0));
}

TEST_CASE("a sagging net hangs lowest in the middle and straight at its edges",
          "[geometry][property]") {
    auto cloth = cloth_of(level_net, 0.4);
    cloth.sag_fraction = 0.05;
    const Garden garden = garden_with(cloth);
    const double sag = 0.05 * 3.0;
    CHECK(height_over(garden, 1.5, 1.0) == within(2.2 - sag, 1e-9));
    CHECK(height_over(garden, 1e-9, 1.0) == within(2.2, 1e-9));
    // Half way to the edge it hangs 3/4 of the sag, to the chord of its facets.
    CHECK(height_over(garden, 0.75, 1.0) == within(2.2 - 0.75 * sag, 1e-9));
    CHECK(height_over(garden, 0.8, 0.97) ==
          within(2.2 - 16.0 * sag * (0.8 / 3 * 2.2 / 3) * (0.485 * 0.515), 0.002));
    auto sail = cloth_of({{0, 0, 2}, {3, 0, 2}, {0, 3, 2}}, 0.5);
    sail.sag_fraction = 0.1;
    const Garden triangle = garden_with(sail);
    CHECK(height_over(triangle, 1.0, 1.0) == within(2.0 - 0.1 * std::sqrt(18.0), 0.02));
}

TEST_CASE("a twisted net is ruled between its edges", "[geometry][property]") {
    const Garden garden =
        garden_with(cloth_of({{0, 0, 2.0}, {2, 0, 3.0}, {2, 2, 2.0}, {0, 2, 3.0}}, 0.4));
    CHECK_FALSE(std::get<Sheet>(garden.pieces.at(0).body).is_planar);
    // z = 2 + (u + v - 2 u v)
    Dice dice(4);
    for (int i = 0; i < 200; ++i) {
        const double x = dice.between(0.01, 1.99);
        const double y = dice.between(0.01, 1.99);
        CHECK(height_over(garden, x, y) == within(2.0 + 0.5 * x + 0.5 * y - 0.5 * x * y, 0.002));
    }
}

TEST_CASE("a net that turns inward at a corner leaves that corner open", "[geometry][property]") {
    for (const double sag : {0.0, 0.05}) {
        auto cloth = cloth_of({{0, 0, 2}, {1, 1, 2}, {4, 0, 2}, {1, 4, 2}}, 0.4);
        cloth.sag_fraction = sag;
        const Garden garden = garden_with(cloth);
        CAPTURE(sag);
        CHECK(light_at(garden, {1.0, 2.0, 0.0}, {0, 0, 1}) == Approx(0.6));
        CHECK(light_at(garden, {1.5, 0.5, 0.0}, {0, 0, 1}) == Approx(1.0));
        CHECK(light_at(garden, {2.0, 1.5, 0.0}, {0, 0, 1}) == Approx(0.6));
    }
}

TEST_CASE("a flap hangs plumb from its edge", "[geometry][property]") {
    auto cloth = cloth_of({{0, 0, 2.2}, {3, 0, 2.2}, {3, 2, 2.0}, {0, 2, 2.4}}, 0.4);
    cloth.sag_fraction = 0.05;
    cloth.flaps = {{1, 0.9}};  // from (3, 0) to (3, 2)
    const Garden garden = garden_with(cloth);
    REQUIRE(garden.pieces.size() == 2);
    CHECK(garden.pieces[1].object == garden.pieces[0].object);
    const auto light = [&](double y, double z) {
        return light_at(garden, {4.0, y, z}, {-1.0, 0.0, 0.0});
    };
    CHECK(light(1.0, 2.09) < 0.61);
    CHECK(light(1.0, 1.21) == Approx(0.6));
    CHECK(light(1.0, 1.19) == Approx(1.0));
    CHECK(light(1.99, 1.11) == Approx(0.6));
    CHECK(light(2.01, 1.5) == Approx(1.0));
}
