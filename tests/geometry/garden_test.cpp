#include "sunfleck/geometry/garden.h"

#include "geometry/garden_scenes.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::geometry;

namespace {

Vec3 turned(Vec3 v, double angle) {
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    return {c * v.x - s * v.y, s * v.x + c * v.y, v.z};
}

/// Coordinates at which rays start on planes, corners and axes of things.
std::vector<double> awkward(double low, double high) {
    return {low - 1.0, low, 0.5 * (low + high), high, high + 1e-9, high + 1.0};
}

}  // namespace

TEST_CASE("every ray from every place gives a share between 0 and 1", "[geometry][property]") {
    Dice dice(51);
    std::vector<Vec3> directions;
    for (const double x : {-1.0, 0.0, 1e-17, 1.0}) {
        for (const double y : {-1.0, 0.0, 1e-300, 1.0}) {
            for (const double z : {-1.0, 0.0, -1e-17, 1.0}) {
                if (x * x + y * y + z * z > 0.5) directions.push_back(normalised({x, y, z}));
            }
        }
    }
    for (int garden_number = 0; garden_number < 3; ++garden_number) {
        scene::Scene scene = random_scene(dice);
        if (garden_number == 0) {
            // Square to the axes, so that rays run along faces.
            scene.site.plan_up_bearing = {};
            scene.ground = {};
            scene.benches[0].bearing = {};
        }
        const auto garden = build_garden(scene);
        REQUIRE(garden);
        bool is_share = true;
        for (const Piece& piece : garden->pieces) {
            PieceOptics optics;
            optics.k_per_m = 0.5;
            for (const double x : awkward(piece.low.x, piece.high.x)) {
                for (const double y : awkward(piece.low.y, piece.high.y)) {
                    for (const double z : awkward(piece.low.z, piece.high.z)) {
                        for (const Vec3 direction : directions) {
                            const Passage p = pass(piece, optics, {x, y, z}, direction);
                            is_share = is_share && p.transmittance >= 0.0 &&
                                       p.transmittance <= 1.0 &&
                                       (p.is_met || p.transmittance >= 1.0);
                        }
                    }
                }
            }
        }
        CHECK(is_share);
    }
}

TEST_CASE("a piece's box holds it: what misses the box misses the piece", "[geometry][property]") {
    Dice dice(52);
    const auto garden = build_garden(random_scene(dice));
    REQUIRE(garden);
    PieceOptics optics;
    optics.k_per_m = 0.5;
    for (Piece piece : garden->pieces) {
        const Vec3 low = piece.low;
        const Vec3 high = piece.high;
        // Without the box's early answer.
        piece.low = {-1e3, -1e3, -1e3};
        piece.high = {1e3, 1e3, 1e3};
        for (int i = 0; i < 200; ++i) {
            const Vec3 origin = dice.point(9.0);
            const Vec3 aim{dice.between(low.x - 0.5, high.x + 0.5),
                           dice.between(low.y - 0.5, high.y + 0.5),
                           dice.between(low.z - 0.5, high.z + 0.5)};
            const Vec3 direction = normalised(aim - origin);
            Piece boxed = piece;
            boxed.low = low;
            boxed.high = high;
            CHECK(pass(boxed, optics, origin, direction).transmittance ==
                  Approx(pass(piece, optics, origin, direction).transmittance));
        }
    }
}

TEST_CASE("turning the whole plan turns the light with it", "[geometry][property]") {
    Dice dice(53);
    scene::Scene scene = random_scene(dice);
    const Angle turn = Angle::degrees(37.0);
    scene::Scene other = scene;
    other.site.plan_up_bearing = scene.site.plan_up_bearing + turn;
    other.ground.downhill_bearing = scene.ground.downhill_bearing + turn;
    other.benches[0].bearing = scene.benches[0].bearing + turn;
    other.post_stands[0].bearing = scene.post_stands[0].bearing + turn;
    other.buildings[0].ridge_bearing = scene.buildings[0].ridge_bearing + turn;
    other.lath_panels[0].bearing = scene.lath_panels[0].bearing + turn;
    other.trees[0].crown_bearing = scene.trees[0].crown_bearing + turn;
    // The trunk's twelve sides do not turn with the plan.
    scene.trees[0].trunk_diameter_m = other.trees[0].trunk_diameter_m = 0.0;
    const auto one = build_garden(scene);
    const auto two = build_garden(other);
    REQUIRE(one);
    REQUIRE(two);
    REQUIRE(one->pieces.size() == two->pieces.size());
    int differing = 0;
    int shaded = 0;
    for (int i = 0; i < 5000; ++i) {
        const Vec3 origin = dice.point(7.0);
        const Vec3 direction = dice.direction();
        const double light = light_at(*one, origin, direction);
        const double angle = -turn.in_radians();
        const double after = light_at(*two, turned(origin, angle), turned(direction, angle));
        if (std::abs(light - after) > 1e-6) ++differing;
        if (light < 0.5) ++shaded;
    }
    CHECK(differing == 0);
    CHECK(shaded > 300);
}

TEST_CASE("pieces know their objects, in the order of the scene", "[geometry][property]") {
    Dice dice(54);
    const auto garden = build_garden(random_scene(dice));
    REQUIRE(garden);
    std::string ids;
    for (const Object& object : garden->objects) ids += object.id;
    CHECK(ids == "BPWHNLT");
    std::uint32_t before = 0;
    for (const Piece& piece : garden->pieces) {
        CHECK(piece.object >= before);
        CHECK(piece.object < garden->objects.size());
        before = piece.object;
    }
    const auto empty = build_garden(scene::Scene{});
    REQUIRE(empty);
    CHECK(empty->pieces.empty());
}

TEST_CASE("all broken objects are told at once", "[geometry][property]") {
    scene::Scene scene;
    const std::vector<Vec2> crossed = {{0, 0}, {2, 2}, {2, 0}, {0, 2}};
    for (int i = 0; i < 3; ++i) scene.buildings.push_back(building_on(crossed, 2.0));
    const auto garden = build_garden(scene);
    REQUIRE_FALSE(garden);
    CHECK(garden.error().size() == 3);
}
