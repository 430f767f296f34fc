#include "sunfleck/geometry/triangle_tree.h"

#include "geometry/garden_cases.h"
#include "geometry/ray_box.h"

#include <catch2/catch.hpp>

#include <array>

using namespace sunfleck;
using namespace sunfleck::geometry;

namespace {

/// A wavy sheet of 2 n^2 triangles over the unit square.
std::vector<Triangle> wavy_sheet(int n) {
    const auto point = [n](int i, int j) {
        const double x = static_cast<double>(i) / n;
        const double y = static_cast<double>(j) / n;
        return Vec3{x, y, 0.1 * std::sin(9.0 * x) * std::cos(7.0 * y)};
    };
    std::vector<Triangle> triangles;
    for (int i = 0; i < n; ++i) {
        for (int j = 0; j < n; ++j) {
            triangles.push_back({point(i, j), point(i + 1, j), point(i + 1, j + 1)});
            triangles.push_back({point(i, j), point(i + 1, j + 1), point(i, j + 1)});
        }
    }
    return triangles;
}

}  // namespace

TEST_CASE("a tree finds the crossings that trying every triangle finds", "[geometry][cross]") {
    Dice dice(41);
    std::vector<Triangle> triangles;
    for (int i = 0; i < 500; ++i) {
        const Vec3 at = dice.point(2.0);
        triangles.push_back({at, at + dice.point(0.5), at + dice.point(0.5)});
    }
    std::vector<Triangle> ordered = triangles;
    const TriangleTree tree = build_triangle_tree(ordered);
    REQUIRE(ordered.size() == triangles.size());
    int crossings = 0;
    for (int i = 0; i < 2000; ++i) {
        const Vec3 origin = dice.point(4.0);
        const Vec3 direction = normalised(dice.point(1.5) - origin);
        const int all = count_crossings(triangles, {}, origin, direction, 32);
        CHECK(count_crossings(ordered, tree, origin, direction, 32) == all);
        CHECK(count_crossings(ordered, tree, origin, direction, 1) == std::min(all, 1));
        crossings += all;
    }
    CHECK(crossings > 2000);
}

TEST_CASE("no ray slips through a sheet, also where it meets edges and corners",
          "[geometry][property]") {
    constexpr int n = 16;
    std::vector<Triangle> sheet = wavy_sheet(n);
    const TriangleTree tree = build_triangle_tree(sheet);
    const Vec3 up{0.0, 0.0, 1.0};
    Dice dice(42);
    for (int i = 0; i < 2000; ++i) {
        const Vec3 place{dice.between(0.01, 0.99), dice.between(0.01, 0.99), -1.0};
        CHECK(count_crossings(sheet, tree, place, up, 8) == 1);
    }
    for (int i = 1; i < n; ++i) {
        for (int j = 1; j < n; ++j) {
            // Aimed at a corner of six triangles, straight and aslant.
            const Vec3 corner{static_cast<double>(i) / n, static_cast<double>(j) / n, -1.0};
            CHECK(count_crossings(sheet, tree, corner, up, 8) == 1);
            const Vec3 direction = normalised({0.3, 0.2, 1.0});
            const Vec3 at = sheet[static_cast<std::size_t>(i * j)].b;
            if (at.x < 0.01 || at.x > 0.99 || at.y < 0.01 || at.y > 0.99) continue;
            CHECK(count_crossings(sheet, tree, at - 2.0 * direction, direction, 8) == 1);
        }
    }
}

TEST_CASE("triangles without area and rays within a triangle's plane count nothing",
          "[geometry][property]") {
    const std::vector<Triangle> line = {{{0, 0, 0}, {1, 0, 0}, {2, 0, 0}}};
    const std::vector<Triangle> dot_only = {{{0, 0, 0}, {0, 0, 0}, {0, 0, 0}}};
    const std::vector<Triangle> flat = {{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}}};
    CHECK(count_crossings(line, {}, {0.5, 0.0, -1.0}, {0, 0, 1}, 4) == 0);
    CHECK(count_crossings(dot_only, {}, {0.0, 0.0, -1.0}, {0, 0, 1}, 4) == 0);
    CHECK(count_crossings(flat, {}, {-1.0, 0.2, 0.0}, {1, 0, 0}, 4) == 0);
    CHECK(count_crossings(flat, {}, {0.2, 0.2, 0.0}, {0, 0, 1}, 4) == 0);
    CHECK(count_crossings(flat, {}, {0.2, 0.2, -1e-3}, {0, 0, 1}, 4) == 1);
    CHECK(count_crossings({}, {}, {0, 0, 0}, {0, 0, 1}, 4) == 0);
}

TEST_CASE("a ray that points at a box may meet it, one that points past does not",
          "[geometry][property]") {
    Dice dice(43);
    const Vec3 low{-1.0, -0.5, 0.0};
    const Vec3 high{1.0, 0.5, 0.2};
    int missed = 0;
    for (int i = 0; i < 5000; ++i) {
        const Vec3 origin = dice.point(4.0);
        const Vec3 inside{dice.between(-1.0, 1.0), dice.between(-0.5, 0.5), dice.between(0.0, 0.2)};
        const Vec3 direction = normalised(inside - origin);
        CHECK(may_meet_box(low, high, origin, direction));
        const bool is_out = std::abs(origin.x) > 1.0 || std::abs(origin.y) > 0.5 ||
                            origin.z < 0.0 || origin.z > 0.2;
        if (is_out) CHECK_FALSE(may_meet_box(low, high, origin, -direction));
        if (!may_meet_box(low, high, origin, dice.direction())) ++missed;
    }
    CHECK(missed > 3000);
    // Flat boxes, and rays along their faces.
    CHECK(may_meet_box({0, 0, 1}, {1, 1, 1}, {0.5, 0.5, 0.0}, {0, 0, 1}));
    CHECK(may_meet_box({0, 0, 1}, {1, 1, 1}, {-1.0, 0.5, 1.0}, {1, 0, 0}));
    CHECK_FALSE(may_meet_box({0, 0, 1}, {1, 1, 1}, {-1.0, 0.5, 1.1}, {1, 0, 0}));
}
