#include "scene/plan_outline.h"

#include "base/within.h"
#include "scene/garden_maker.h"

#include <catch2/catch.hpp>

using sunfleck::test::within;

namespace sunfleck::scene {
namespace {

const std::vector<Vec2> square{{0, 0}, {2, 0}, {2, 2}, {0, 2}};
/// An L: the lower bar 3 wide, the upper arm 1 wide.
const std::vector<Vec2> ell{{0, 0}, {3, 0}, {3, 1}, {1, 1}, {1, 3}, {0, 3}};
/// A U whose upper half is two arms.
const std::vector<Vec2> fork{{0, 0}, {5, 0}, {5, 2}, {3, 2}, {3, 1}, {1, 1}, {1, 2}, {0, 2}};

}  // namespace

TEST_CASE("A strip through a fork is two stretches", "[scene][property]") {
    const auto low = stretches_inside(fork, 0.1, 0.9, 0.0);
    REQUIRE(low.size() == 1);
    CHECK(low[0].from == within(0.0, 1e-12));
    CHECK(low[0].to == within(5.0, 1e-12));
    const auto high = stretches_inside(fork, 1.1, 1.9, 0.0);
    REQUIRE(high.size() == 2);
    CHECK(high[0].to == within(1.0, 1e-12));
    CHECK(high[1].from == within(3.0, 1e-12));
    CHECK(stretches_inside(fork, 0.5, 1.5, 0.0).size() == 2);
    CHECK(stretches_inside(fork, 1.1, 1.9, 1.5).size() == 1);
    CHECK(stretches_inside(fork, 2.1, 2.9, 0.0).empty());
}

TEST_CASE("A strip in a triangle is what is inside over its whole depth", "[scene][property]") {
    // Sides x = y and x = 4 - y: between y = 0 and 1 the strip lies inside for x from 1 to 3.
    const std::vector<Vec2> triangle{{0, 0}, {4, 0}, {2, 2}};
    const auto stretches = stretches_inside(triangle, 0.0, 1.0, 0.0);
    REQUIRE(stretches.size() == 1);
    CHECK(stretches[0].from == Approx(1.0));
    CHECK(stretches[0].to == Approx(3.0));
}

TEST_CASE("Points are inside or outside an L", "[scene][property]") {
    CHECK(is_inside(ell, {0.5, 2.5}));
    CHECK(is_inside(ell, {2.5, 0.5}));
    CHECK_FALSE(is_inside(ell, {2.5, 2.5}));
    CHECK_FALSE(is_inside(ell, {-0.5, 0.5}));
}

TEST_CASE("Outlines that cross, touch or fold are found", "[scene][property]") {
    CHECK_FALSE(self_crossing(square));
    CHECK_FALSE(self_crossing(ell));
    CHECK(self_crossing(std::vector<Vec2>{{0, 0}, {2, 2}, {2, 0}, {0, 2}}) ==
          std::pair<std::size_t, std::size_t>(0, 2));
    // A corner that lies on another edge, and an edge that runs back along the one before.
    CHECK(self_crossing(std::vector<Vec2>{{0, 0}, {4, 0}, {4, 2}, {2, 0}, {0, 2}}));
    CHECK(self_crossing(std::vector<Vec2>{{0, 0}, {4, 0}, {2, 0}, {2, 2}}));
}

TEST_CASE("The signed area tells the direction", "[scene][property]") {
    CHECK(signed_area(ell) == within(5.0, 1e-12));
    CHECK(signed_area(std::vector<Vec2>(ell.rbegin(), ell.rend())) == within(-5.0, 1e-12));
}

TEST_CASE("Overlap is the least shift that parts two rectangles", "[scene][property]") {
    const auto one = rectangle_about({0, 0}, {1, 0}, 2.0, 1.0);
    CHECK(overlap_depth(one, rectangle_about({1.8, 0.1}, {1, 0}, 2.0, 1.0)) == Approx(0.2));
    CHECK(overlap_depth(one, rectangle_about({2.0, 0.0}, {1, 0}, 2.0, 1.0)) == within(0.0, 1e-12));
    CHECK(overlap_depth(one, rectangle_about({5.0, 0.0}, {1, 0}, 2.0, 1.0)) == within(0.0, 1e-12));
    // Turned by 45 degrees, a unit square reaches sqrt(0.5) towards the other.
    const double root = std::sqrt(0.5);
    const auto turned = rectangle_about({1.5, 0.0}, {root, root}, 1.0, 1.0);
    CHECK(overlap_depth(one, turned) == Approx(1.0 + root - 1.5));
}

TEST_CASE("The hull of random points holds them all and is convex", "[scene][property]") {
    Dice dice(3);
    for (int round = 0; round < 20; ++round) {
        std::vector<Vec2> points;
        for (int i = 0; i < 30; ++i) points.push_back({dice.between(-1, 1), dice.between(-1, 1)});
        const auto hull = convex_hull(points);
        REQUIRE(hull.size() >= 3);
        for (std::size_t i = 0; i < hull.size(); ++i) {
            const Vec2 side = hull[(i + 1) % hull.size()] - hull[i];
            for (const Vec2 point : points) CHECK(cross(side, point - hull[i]) >= -1e-12);
        }
    }
}

}  // namespace sunfleck::scene
