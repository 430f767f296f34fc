#include "sunfleck/output/garden_shadows.h"

#include "base/within.h"
#include "output/pixels.h"
#include "output/sample_garden.h"
#include "sunfleck/sun/solar_position.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::output;
using sunfleck::output::test::Pixels;
using sunfleck::test::within;

namespace {

/// A garden of walls, nets and trees on level ground, in shadow from the south at 45 degrees.
struct Trial {
    scene::Scene scene;
    PlanView view{{{0.0, 0.0}, {10.0, 10.0}}, box_at({0, 0}, 400, 400)};
    Vec3 to_sun = sun::direction(Angle::degrees(180.0), Angle::degrees(45.0));

    Trial() { scene.site.time_zone = "Etc/UTC"; }
    void add_wall(Vec2 from, Vec2 to, double height_m) {
        scene::Wall wall;
        wall.label.id = "W" + std::to_string(scene.walls.size());
        wall.line = {from, to};
        wall.height_m = height_m;
        wall.thickness_m = 0.02;
        scene.walls.push_back(wall);
    }
    /// The sheet with the shadows on the level plane at `level_m` over the ground.
    [[nodiscard]] Pixels drawn(double level_m) const {
        const auto garden = geometry::build_garden(scene);
        REQUIRE(garden);
        const scene::PlanFrame frame(scene);
        const ShadowCaster caster(*garden, geometry::optics_on(*garden, make_date(2026, 6, 21)),
                                  frame, to_sun);
        const auto canvas = raster_canvas({400.0, 400.0}, 1.0);
        const Path sheet = rectangle(view.panel());
        canvas->fill(sheet, morning.grass);
        const ShadowPlane plane = level_m > 0.0 ? level_plane(level_m) : ground_plane(*garden);
        caster.draw(*canvas, view, plane, sheet, view.panel());
        return Pixels(canvas->finish().value());
    }
    [[nodiscard]] static Colour at(const Pixels& pixels, double x_m, double y_m) {
        return pixels.at(40.0 * x_m, 400.0 - 40.0 * y_m);
    }
};

}  // namespace

TEST_CASE("a wall's shadow is as long as the wall is high at 45 degrees", "[output][property]") {
    Trial trial;
    trial.add_wall({1, 2}, {9, 2}, 2.0);
    const Pixels pixels = trial.drawn(0.0);
    CHECK(Trial::at(pixels, 5, 3.9) != morning.grass);
    CHECK(Trial::at(pixels, 5, 4.1) == morning.grass);
    CHECK(Trial::at(pixels, 5, 1.9) == morning.grass);
    CHECK(Trial::at(pixels, 0.5, 3) == morning.grass);
}

TEST_CASE("on a top only what rises over it throws a shadow", "[output][property]") {
    Trial trial;
    trial.add_wall({1, 2}, {9, 2}, 2.0);
    const Pixels pixels = trial.drawn(1.2);
    CHECK(Trial::at(pixels, 5, 2.7) != morning.grass);
    CHECK(Trial::at(pixels, 5, 2.9) == morning.grass);
    CHECK(Trial::at(trial.drawn(2.0), 5, 2.5) == morning.grass);
}

TEST_CASE("overlapping shadows are no darker than one", "[output][property]") {
    Trial trial;
    trial.add_wall({1, 2}, {9, 2}, 3.0);
    trial.add_wall({4, 3}, {6, 3}, 3.0);
    // The other way round, so that the outlines turn the other way before they are set right.
    trial.add_wall({7, 3.5}, {5, 3.5}, 3.0);
    const Pixels pixels = trial.drawn(0.0);
    CHECK(Trial::at(pixels, 5.5, 4) == Trial::at(pixels, 2, 4));
    CHECK(Trial::at(pixels, 4.5, 4) == Trial::at(pixels, 2, 4));
}

TEST_CASE("a crown's shadow is paler than a wall's", "[output][property]") {
    Trial trial;
    trial.add_wall({1, 2}, {3, 2}, 3.0);
    scene::Tree tree;
    tree.label.id = "T";
    tree.position = {7, 2};
    tree.height_m = 4.0;
    tree.crown_base_m = 1.0;
    tree.crown_width_m = tree.crown_width_across_m = 2.0;
    tree.leaf_habit = scene::LeafHabit::evergreen;
    tree.transmission_in_leaf = 0.2;
    trial.scene.trees.push_back(tree);
    const Pixels pixels = trial.drawn(0.0);
    const double wall = pixels.grey(40.0 * 2, 400.0 - 40.0 * 3);
    const double crown = pixels.grey(40.0 * 7, 400.0 - 40.0 * 4.5);
    const double grass = pixels.grey(40.0 * 5, 400.0 - 40.0 * 8);
    CHECK(wall < crown);
    CHECK(crown < grass - 5.0);
}

TEST_CASE("a net's shadow is hatched", "[output][property]") {
    Trial trial;
    scene::Cloth net;
    net.label.id = "N";
    net.shade_factor = 0.4;
    for (const Vec2 corner : {Vec2{2, 2}, Vec2{6, 2}, Vec2{6, 6}, Vec2{2, 6}}) {
        net.corners.push_back({corner, {.value_m = 2.0, .is_absolute = true}});
    }
    trial.scene.cloths.push_back(net);
    const Pixels pixels = trial.drawn(0.0);
    int changes = 0;
    bool was_dark = false;
    for (double x = 100.0; x < 200.0; x += 1.0) {
        const bool is_dark = pixels.grey(x, 400.0 - 40.0 * 6) < 200.0;
        if (is_dark != was_dark) ++changes;
        was_dark = is_dark;
    }
    // A line each 5 px square to it is one each 7.07 px across.
    CHECK(changes == within(2.0 * 100.0 / 7.07, 3.0));
}

TEST_CASE("on a slope away from the sun shadows grow", "[output][property]") {
    // Ground falling to the north by 1 in 5: a 2 m wall's shadow at 45 degrees meets it where
    // 2 - y = -y / 5, 2.5 m behind the wall.
    Trial trial;
    trial.scene.ground = {Angle::radians(std::atan(0.2)), Angle::degrees(0.0)};
    trial.add_wall({1, 0.5}, {9, 0.5}, 2.0);
    const Pixels pixels = trial.drawn(0.0);
    CHECK(Trial::at(pixels, 5, 2.9) != morning.grass);
    CHECK(Trial::at(pixels, 5, 3.15) == morning.grass);
}
