#include "sunfleck/output/plan_view.h"

#include "base/within.h"
#include "output/sample_garden.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::output;
using sunfleck::test::within;

TEST_CASE("up the plan is up the sheet, and the part shown fills the panel", "[output][property]") {
    const PlanView view({{2.0, 1.0}, {6.0, 3.0}}, box_at({100.0, 50.0}, 400.0, 400.0));
    CHECK(view.pixels_per_m() == Approx(100.0));
    CHECK(distance(view.at({4.0, 2.0}), {300.0, 250.0}) < 1e-9);
    CHECK(distance(view.at({2.0, 3.0}), {100.0, 150.0}) < 1e-9);
}

TEST_CASE("benches and nets are shown whole", "[output][property]") {
    const scene::Scene scene = output::test::sample_garden();
    const PlanBox part = shown_part(scene);
    for (const auto& bench : scene.benches) {
        for (const Vec2& corner : bench.outline) {
            CHECK(corner.x > part.low.x);
            CHECK(corner.x < part.high.x);
            CHECK(corner.y > part.low.y);
            CHECK(corner.y < part.high.y);
        }
    }
    CHECK(part.low.x < 0.8);
    // Of the house only the near part.
    CHECK(part.high.y < 9.0);
}

TEST_CASE("a wall far off does not turn the part shown inside out", "[output][property]") {
    scene::Scene scene = output::test::sample_garden();
    scene.buildings.clear();
    scene.trees.clear();
    scene.walls.resize(1);
    scene.walls.front().line = {{50.0, -40.0}, {60.0, -40.0}};
    const PlanBox part = shown_part(scene);
    CHECK(part.width() > 0.0);
    CHECK(part.width() < 10.0);
    CHECK(part.height() < 10.0);
}

TEST_CASE("a garden with nothing in it still has a picture", "[output][property]") {
    const PlanBox part = shown_part({});
    CHECK(part.width() > 1.0);
    CHECK(part.height() > 1.0);
}

TEST_CASE("one far tree does not shrink the benches", "[output][property]") {
    scene::Scene scene = output::test::sample_garden();
    const double before = shown_part(scene).width();
    scene.trees.push_back(scene.trees.front());
    scene.trees.back().position = {500.0, 0.0};
    CHECK(shown_part(scene).width() == within(before, 2.5));
}
