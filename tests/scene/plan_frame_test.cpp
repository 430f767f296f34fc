#include "sunfleck/scene/plan_frame.h"

#include "base/within.h"
#include "scene/garden_maker.h"

#include <catch2/catch.hpp>

using sunfleck::test::within;

namespace sunfleck::scene {
namespace {

Scene turned(double plan_up_bearing_deg) {
    Scene scene = scene_at(51.5, -0.3, "Europe/London");
    scene.site.plan_up_bearing = Angle::degrees(plan_up_bearing_deg);
    return scene;
}

}  // namespace

TEST_CASE("The plan's axes point where its bearing says", "[scene][property]") {
    struct Row {
        double plan_up_bearing_deg;
        Vec2 plan;
        Vec2 east_north;
    };
    // By hand: with y pointing east, x (a quarter turn clockwise of y) points south.
    const double half = 0.5;
    const double root = std::sqrt(0.75);
    const std::vector<Row> rows{
        {0.0, {1.0, 0.0}, {1.0, 0.0}},    {0.0, {0.0, 1.0}, {0.0, 1.0}},
        {90.0, {0.0, 1.0}, {1.0, 0.0}},   {90.0, {1.0, 0.0}, {0.0, -1.0}},
        {180.0, {0.0, 1.0}, {0.0, -1.0}}, {180.0, {1.0, 0.0}, {-1.0, 0.0}},
        {270.0, {0.0, 1.0}, {-1.0, 0.0}}, {270.0, {1.0, 0.0}, {0.0, 1.0}},
        {30.0, {0.0, 1.0}, {half, root}}, {30.0, {1.0, 0.0}, {root, -half}},
    };
    for (const Row& row : rows) {
        CAPTURE(row.plan_up_bearing_deg, row.plan.x, row.plan.y);
        const Vec2 world = PlanFrame(turned(row.plan_up_bearing_deg)).to_world(row.plan);
        CHECK(world.x == within(row.east_north.x, 1e-15));
        CHECK(world.y == within(row.east_north.y, 1e-15));
    }
}

TEST_CASE("Quarter turns are exact", "[scene][property]") {
    CHECK(PlanFrame(turned(90.0)).to_world({0.0, 3.0}) == Vec2{3.0, 0.0});
    CHECK(PlanFrame(turned(-90.0)).to_world({0.0, 3.0}) == Vec2{-3.0, 0.0});
}

TEST_CASE("Plan and world are each other's way back and keep lengths", "[scene][property]") {
    Dice dice(1);
    for (int i = 0; i < 200; ++i) {
        const PlanFrame frame(turned(dice.between(-360.0, 360.0)));
        const Vec2 plan{dice.between(-50.0, 50.0), dice.between(-50.0, 50.0)};
        const Vec2 world = frame.to_world(plan);
        CHECK(length(world) == Approx(length(plan)).epsilon(1e-13));
        CHECK(length(frame.to_plan(world) - plan) < 1e-12);
    }
}

TEST_CASE("A bearing's direction in the plan is that bearing in the world", "[scene][property]") {
    Dice dice(2);
    for (int i = 0; i < 200; ++i) {
        const PlanFrame frame(turned(dice.between(0.0, 360.0)));
        const double bearing_deg = dice.between(0.0, 360.0);
        const Vec2 world = frame.to_world(frame.plan_direction(Angle::degrees(bearing_deg)));
        CHECK(world.x == within(std::sin(bearing_deg * M_PI / 180.0), 1e-14));
        CHECK(world.y == within(std::cos(bearing_deg * M_PI / 180.0), 1e-14));
    }
}

TEST_CASE("The ground falls by the slope's tangent downhill and not at all across",
          "[scene][property]") {
    // 12 degrees to the north-east, as a plane: 10 m downhill lie 10 tan 12 = 2.1256 m lower.
    Scene scene = turned(90.0);
    scene.ground = {Angle::degrees(12.0), Angle::degrees(45.0)};
    const PlanFrame frame(scene);
    const Vec2 downhill = frame.plan_direction(Angle::degrees(45.0));
    CHECK(frame.ground_z(10.0 * downhill) == within(-2.12557, 5e-6));
    CHECK(frame.ground_z(-10.0 * downhill) == within(2.12557, 5e-6));
    CHECK(frame.ground_z(10.0 * frame.plan_direction(Angle::degrees(135.0))) == within(0.0, 1e-12));
    CHECK(frame.z_of({1.5, false}, 10.0 * downhill) == within(-0.62557, 5e-6));
    CHECK(frame.z_of({1.5, true}, 10.0 * downhill) == within(1.5, 1e-12));
    CHECK(frame.world_point({1.0, 0.0}, 7.0) == Vec3{0.0, -1.0, 7.0});
}

}  // namespace sunfleck::scene
