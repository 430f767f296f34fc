#include "geometry/flat_outline.h"

#include "base/within.h"
#include "geometry/garden_cases.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace sunfleck;
using namespace sunfleck::geometry;
using sunfleck::test::within;

namespace {

double total_area(const std::vector<Outline>& parts) {
    double area = 0.0;
    for (const Outline& part : parts) area += signed_area(part);
    return area;
}

bool is_convex(const Outline& outline) {
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Vec2 a = outline[i];
        const Vec2 b = outline[(i + 1) % outline.size()];
        const Vec2 c = outline[(i + 2) % outline.size()];
        if (cross(b - a, c - b) < 0.0) return false;
    }
    return true;
}

/// A star with a random reach at each of its corners: simple, seldom convex.
Outline random_star(Dice& dice, int corners) {
    Outline star;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2.0 * std::numbers::pi * (i + dice.between(0.0, 0.8)) / corners;
        const double reach = dice.between(0.3, 3.0);
        star.push_back({reach * std::cos(angle), reach * std::sin(angle)});
    }
    return star;
}

}  // namespace

TEST_CASE("any simple outline falls into convex parts of the same area", "[geometry][property]") {
    Dice dice(21);
    int cut = 0;
    for (int i = 0; i < 300; ++i) {
        Outline outline = random_star(dice, 3 + i % 12);
        const double area = signed_area(outline);
        if (area <= 0.0) continue;
        if (i % 2 == 1) std::reverse(outline.begin(), outline.end());
        const auto parts = convex_parts(outline);
        REQUIRE(parts);
        CHECK(total_area(*parts) == Approx(area));
        CHECK(std::all_of(parts->begin(), parts->end(), is_convex));
        if (parts->size() > 1) ++cut;
    }
    CHECK(cut > 200);
}

TEST_CASE("corners that repeat or lie on a straight edge are no matter", "[geometry][property]") {
    const auto parts = convex_parts(
        {{0, 0}, {1, 0}, {1, 0}, {2, 0}, {2, 1}, {2, 2}, {1, 2}, {0, 2}, {0, 1}, {0, 0}});
    REQUIRE(parts);
    CHECK(parts->size() == 1);
    CHECK(total_area(*parts) == Approx(4.0));
}

TEST_CASE("outlines that cross or touch themselves have no parts", "[geometry][property]") {
    CHECK_FALSE(convex_parts({{0, 0}, {2, 2}, {2, 0}, {0, 2}}));
    CHECK_FALSE(convex_parts({{0, 0}, {2, 0}, {1, 0}}));
    CHECK_FALSE(convex_parts({{0, 0}, {4, 0}, {4, 2}, {2, 0}, {0, 2}}));
    CHECK_FALSE(convex_parts({{0, 0}, {1, 0}}));
    CHECK_FALSE(convex_parts({}));
    CHECK_FALSE(convex_parts({{1, 1}, {1, 1}, {1, 1}, {1, 1}}));
}

TEST_CASE("a hull holds all points and turns left all round", "[geometry][property]") {
    Dice dice(22);
    for (int i = 0; i < 50; ++i) {
        std::vector<Vec2> points;
        for (int k = 0; k < 40; ++k) points.push_back({dice.between(-1, 1), dice.between(-1, 1)});
        const Outline hull = convex_hull(points);
        REQUIRE(hull.size() >= 3);
        CHECK(is_convex(hull));
        for (const Vec2 p : points) {
            for (std::size_t k = 0; k < hull.size(); ++k) {
                const Vec2 edge = hull[(k + 1) % hull.size()] - hull[k];
                CHECK(cross(edge, p - hull[k]) / length(edge) >= -2e-9);
            }
        }
    }
    CHECK(convex_hull({{0, 0}, {1, 1}, {2, 2}, {3, 3}}).empty());
    CHECK(convex_hull({{0, 0}, {0, 0}, {0, 0}}).empty());
    CHECK(convex_hull({{0, 0}, {1, 0}}).empty());
}

TEST_CASE("the two sides of a cut make up the whole", "[geometry][property]") {
    Dice dice(23);
    for (int i = 0; i < 300; ++i) {
        std::vector<Vec2> points;
        for (int k = 0; k < 12; ++k) points.push_back({dice.between(-1, 1), dice.between(-1, 1)});
        const Outline whole = convex_hull(points);
        const double angle = dice.between(0.0, 6.28);
        const Vec2 normal{std::cos(angle), std::sin(angle)};
        const double offset = dice.between(-1.2, 1.2);
        const Outline one = clipped(whole, normal, offset);
        const Outline other = clipped(whole, -1.0 * normal, -offset);
        CHECK(signed_area(one) + signed_area(other) == within(signed_area(whole), 1e-9));
    }
}

TEST_CASE("widening moves every edge out and cuts sharp corners off", "[geometry][property]") {
    const Outline square = widened({{0, 0}, {2, 0}, {2, 2}, {0, 2}}, 0.5);
    CHECK(signed_area(square) == Approx(9.0));
    // A needle's tip would reach out by 20 times the distance; it is cut at once the distance.
    const Outline needle = widened({{0, 0}, {10, -0.5}, {10, 0.5}}, 0.1);
    for (const Vec2 p : needle) CHECK(p.x > -0.2);
    CHECK(convex_parts(needle));
}
