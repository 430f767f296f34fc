#include "geometry/polyhedron.h"

#include "geometry/garden_cases.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::geometry;

namespace {

/// By the divergence theorem over the outward facets.
double volume_of(const ConvexSolid& solid) {
    double volume = 0.0;
    for (const Triangle& t : solid.facets) volume += dot(t.a, cross(t.b, t.c)) / 6.0;
    return volume;
}

Outline random_convex(Dice& dice) {
    while (true) {
        std::vector<Vec2> points;
        for (int k = 0; k < 8; ++k) points.push_back({dice.between(-2, 2), dice.between(-2, 2)});
        Outline hull = convex_hull(points);
        if (hull.size() >= 3 && signed_area(hull) > 0.5) return hull;
    }
}

HeightPlane random_plane(Dice& dice, double at) {
    return {at, {dice.between(-0.5, 0.5), dice.between(-0.5, 0.5)}};
}

}  // namespace

TEST_CASE("a prism has the volume of its outline times its mean height", "[geometry][property]") {
    Dice dice(31);
    for (int i = 0; i < 100; ++i) {
        const Outline outline = random_convex(dice);
        const HeightPlane bottom = random_plane(dice, 0.0);
        const auto solid = solid_of(prism(outline, bottom, bottom.raised(1.7)));
        CHECK(volume_of(solid) == Approx(1.7 * signed_area(outline)));
        CHECK(solid.planes.size() == outline.size() + 2);
        for (const Plane& plane : solid.planes) {
            CHECK(length(plane.normal) == Approx(1.0));
            for (const Triangle& t : solid.facets) {
                CHECK(dot(plane.normal, t.a) <= plane.offset + 1e-12);
            }
        }
    }
}

TEST_CASE("what a cut takes and what it leaves make up the body", "[geometry][property]") {
    Dice dice(32);
    for (int i = 0; i < 200; ++i) {
        const Outline outline = random_convex(dice);
        const auto body = prism(outline, level(0.0), level(3.0));
        const HeightPlane cut = random_plane(dice, dice.between(-1.0, 4.0));
        const double below = volume_of(solid_of(cut_below(body, cut)));
        // The part above, mirrored in z, is the part below the mirrored plane.
        const HeightPlane mirrored{-cut.at_origin_m, -1.0 * cut.rise_per_m};
        const auto upside_down = prism(outline, level(-3.0), level(0.0));
        const double above = volume_of(solid_of(cut_below(upside_down, mirrored)));
        CAPTURE(i);
        CHECK(below + above == Approx(3.0 * signed_area(outline)));
    }
}

TEST_CASE("facets of a cut body close: each edge is shared both ways", "[geometry][property]") {
    Dice dice(33);
    for (int i = 0; i < 100; ++i) {
        auto body = prism(random_convex(dice), level(0.0), level(3.0));
        body = cut_below(body, random_plane(dice, 1.8));
        body = cut_below(body, random_plane(dice, 2.0));
        // A closed surface has no area to any side: the facets' area vectors sum to zero.
        Vec3 sum;
        for (const Triangle& t : solid_of(body).facets) sum = sum + cross(t.b - t.a, t.c - t.a);
        CHECK(length(sum) < 1e-9);
    }
}

TEST_CASE("a cut through corners, edges or faces is harmless", "[geometry][property]") {
    const Outline square = rectangle({0, 0}, {1, 0}, 1.0, 1.0);
    const auto cube = prism(square, level(0.0), level(1.0));
    CHECK(volume_of(solid_of(cut_below(cube, level(1.0)))) == Approx(1.0));
    CHECK(cut_below(cube, level(-0.5)).empty());
    CHECK(volume_of(solid_of(cut_below(cube, {0.0, {1.0, 0.0}}))) == Approx(0.5));
    CHECK(volume_of(solid_of(cut_below(cube, {0.0, {1.0, 1.0}}))) == Approx(1.0 - 1.0 / 6.0));
    CHECK(volume_of(solid_of(cut_below(cube, {1.0, {-1.0, -1.0}}))) == Approx(1.0 / 6.0));
}
