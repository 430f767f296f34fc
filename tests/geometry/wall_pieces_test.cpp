#include "geometry/garden_scenes.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::geometry;

namespace {

/// Number of pieces over a point of the plan.
int pieces_over(const Garden& garden, Vec2 p) {
    int count = 0;
    for (const Piece& piece : garden.pieces) {
        if (pass(piece, {}, {p.x, p.y, -50.0}, {0.0, 0.0, 1.0}).is_met) ++count;
    }
    return count;
}

double distance_to(Vec2 a, Vec2 b, Vec2 p) {
    const Vec2 run = b - a;
    const double share = std::clamp(dot(p - a, run) / dot(run, run), 0.0, 1.0);
    return length(p - a - share * run);
}

/// Is the point within `reach` of a stretch and square to a place on it?
bool is_beside(const std::vector<Vec2>& line, Vec2 p, double reach) {
    for (std::size_t k = 0; k + 1 < line.size(); ++k) {
        const Vec2 run = line[k + 1] - line[k];
        const double share = dot(p - line[k], run) / dot(run, run);
        const bool is_square_to_it = share > 0.0 && share < 1.0;
        if (is_square_to_it && distance_to(line[k], line[k + 1], p) < reach) return true;
    }
    return false;
}

}  // namespace

TEST_CASE("no ray passes between the stretches of a wall", "[geometry][property]") {
    const std::vector<std::vector<Vec2>> lines = {
        {{0, 0}, {4, 0}, {4, 3}},                        // right angle
        {{0, 0}, {3, 1}, {6, 0}, {9, 1.5}},              // blunt
        {{0, 0}, {4, 0}, {0.5, 0.7}},                    // sharper than a mitre
        {{0, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}},        // closed
        {{0, 0}, {2, 0}, {4, 0}, {4, 0.05}, {6, 0.05}},  // a jog shorter than the thickness
    };
    for (const auto& line : lines) {
        const Garden garden = garden_with(wall_along(line, 2.0, 0.2), falling(4.0, 90.0));
        Dice dice(3);
        for (int i = 0; i < 2000; ++i) {
            const Vec2 p{dice.between(-0.5, 9.5), dice.between(-0.5, 4.5)};
            double nearest = 1e9;
            for (std::size_t k = 0; k + 1 < line.size(); ++k) {
                nearest = std::min(nearest, distance_to(line[k], line[k + 1], p));
            }
            CAPTURE(i, p.x, p.y, nearest, line.size());
            // Beside a stretch a wall covers all within half its thickness; ends are square.
            if (is_beside(line, p, 0.099)) CHECK(pieces_over(garden, p) >= 1);
            // A mitre stands out by at most the thickness.
            if (nearest > 0.2001) CHECK(pieces_over(garden, p) == 0);
        }
    }
}

TEST_CASE("the wedge outside a sharp turn is filled", "[geometry][property]") {
    const Garden garden = garden_with(wall_along({{0, 0}, {4, 0}, {0.5, 2.0}}, 2.0, 0.2));
    // Half the thickness to the right of both stretches, at the turn.
    const Vec2 turn{4.0, 0.0};
    const Vec2 one = turn + Vec2{0.0, -0.1};
    const Vec2 after = (1.0 / std::hypot(3.5, 2.0)) * Vec2{-3.5, 2.0};
    const Vec2 other = turn + 0.1 * Vec2{after.y, -after.x};
    CHECK(pieces_over(garden, (1.0 / 3.0) * (turn + one + other)) == 1);
    CHECK(pieces_over(garden, 0.499 * (one + other) + 0.002 * turn) == 1);
    CHECK(pieces_over(garden, turn + Vec2{0.11, 0.0}) == 0);
}

TEST_CASE("rays along a joint of two stretches do not leak", "[geometry][property]") {
    const Garden garden = garden_with(wall_along({{0, 0}, {4, 0}, {4, 3}}, 2.0, 0.2));
    // In the plane of the mitre itself.
    const Vec3 outer{4.1, -0.1, 1.0};
    for (double rise = -0.2; rise <= 0.2; rise += 0.01) {
        const Vec3 direction = normalised({-1.0, 1.0, rise});
        CHECK(light_at(garden, outer - 1.0 * direction, direction) == Approx(0.0));
    }
    CHECK(light_at(garden, {4.0, 0.0, 0.5}, {0.0, 0.0, 1.0}) == Approx(0.0));
}

TEST_CASE("a wall follows the ground, or stands level where its level is given",
          "[geometry][property]") {
    auto wall = wall_along({{0, 0}, {10, 0}}, 2.0, 0.2);
    const double fall = std::tan(Angle::degrees(6.0).in_radians());
    const Garden following = garden_with(wall, falling(6.0, 90.0));
    const auto top = [](const Garden& garden, double x) {
        const auto is_lit = [&](double z) {
            return light_at(garden, {x, -1.0, z}, {0.0, 1.0, 0.0}) > 0.5;
        };
        return edge_m(is_lit, -0.9, 5.0);
    };
    CHECK(top(following, 1.0) == Approx(2.0 - fall));
    CHECK(top(following, 9.0) == Approx(2.0 - 9.0 * fall));
    wall.base_z_m = 0.5;
    CHECK(garden_with(wall, falling(6.0, 90.0)).pieces[0].high.z == Approx(2.5));
    CHECK(garden_with(wall, falling(6.0, 90.0)).pieces[0].low.z == Approx(0.5));
}

TEST_CASE("a fence lets its open share through once", "[geometry][property]") {
    auto fence = wall_along({{0, 0}, {3, 0}, {6, 0}}, 1.8, 0.04);
    fence.porosity = 0.1;
    const Garden garden = garden_with(fence);
    // Points on the straight way do not cut it in two: no ray is dimmed twice there.
    CHECK(garden.pieces.size() == 1);
    CHECK(light_at(garden, {3.0, -1.0, 1.0}, {0.0, 1.0, 0.0}) == Approx(0.1));
    CHECK(light_at(garden, {-1.0, 0.0, 1.0}, {1.0, 0.0, 0.0}) == Approx(0.1));
    CHECK(light_at(garden, {3.0, -1.0, 1.9}, {0.0, 1.0, 0.0}) == Approx(1.0));
}
