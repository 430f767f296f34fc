#pragma once

#include "geometry/garden_cases.h"

#include <catch2/catch.hpp>

/// Objects with the least that a test must state.
namespace sunfleck::geometry {

inline scene::Bench rectangular_bench(Vec2 corner, double bearing_deg, double length_m,
                                      std::vector<scene::Tier> tiers) {
    scene::Bench bench;
    bench.label = label("B");
    bench.bearing = Angle::degrees(bearing_deg);
    bench.length_m = length_m;
    for (const scene::Tier& tier : tiers) {
        bench.depth_m = std::max(bench.depth_m, tier.set_back_m + tier.depth_m);
    }
    const Vec2 along{sin(bench.bearing), cos(bench.bearing)};
    const Vec2 back{-along.y, along.x};
    bench.outline = {corner, corner + length_m * along,
                     corner + length_m * along + bench.depth_m * back,
                     corner + bench.depth_m * back};
    bench.tiers = std::move(tiers);
    return bench;
}

inline scene::Tier tier(double height_m, double set_back_m, double depth_m) {
    scene::Tier tier;
    tier.height_m = height_m;
    tier.set_back_m = set_back_m;
    tier.depth_m = depth_m;
    return tier;
}

inline scene::Wall wall_along(std::vector<Vec2> line, double height_m, double thickness_m) {
    scene::Wall wall;
    wall.label = label("W");
    wall.line = std::move(line);
    wall.height_m = height_m;
    wall.thickness_m = thickness_m;
    return wall;
}

inline scene::Building building_on(std::vector<Vec2> outline, double eaves_m) {
    scene::Building building;
    building.label = label("H");
    building.outline = std::move(outline);
    building.eaves_height_m = eaves_m;
    return building;
}

inline scene::Cloth cloth_of(const std::vector<Vec3>& corners, double shade_factor) {
    scene::Cloth cloth;
    cloth.label = label("N");
    for (const Vec3& p : corners) cloth.corners.push_back({{p.x, p.y}, {p.z, true}});
    cloth.shade_factor = shade_factor;
    return cloth;
}

inline scene::LathPanel level_laths(double height_m) {
    scene::LathPanel panel;
    panel.label = label("L");
    panel.height = {height_m, true};
    panel.length_m = 2.0;
    panel.width_m = 3.0;
    panel.slat_width_m = 0.04;
    panel.gap_m = 0.04;
    panel.thickness_m = 0.015;
    return panel;
}

inline scene::Tree tree_at(Vec2 position) {
    scene::Tree tree;
    tree.label = label("T");
    tree.position = position;
    tree.height_m = 9.0;
    tree.crown_base_m = 2.5;
    tree.crown_width_m = 5.0;
    tree.crown_width_across_m = 4.0;
    tree.transmission_in_leaf = 0.1;
    tree.transmission_bare = 0.5;
    tree.trunk_diameter_m = 0.25;
    return tree;
}

inline void put(scene::Scene& scene, const scene::Bench& bench) {
    scene.benches.push_back(bench);
}
inline void put(scene::Scene& scene, const scene::Wall& wall) {
    scene.walls.push_back(wall);
}
inline void put(scene::Scene& scene, const scene::Building& building) {
    scene.buildings.push_back(building);
}
inline void put(scene::Scene& scene, const scene::Cloth& cloth) {
    scene.cloths.push_back(cloth);
}
inline void put(scene::Scene& scene, const scene::Tree& tree) {
    scene.trees.push_back(tree);
}

/// A garden of one thing, on level ground or on a slope.
template <typename Thing>
Garden garden_with(const Thing& thing, const scene::Ground& ground = {}) {
    scene::Scene scene;
    scene.ground = ground;
    put(scene, thing);
    auto garden = build_garden(scene);
    REQUIRE(garden);
    return std::move(*garden);
}

/// Ground that falls by so many degrees.
inline scene::Ground falling(double slope_deg, double downhill_deg) {
    return {Angle::degrees(slope_deg), Angle::degrees(downhill_deg)};
}

/// A garden on a slope with one or more of everything but meshes; the dice place them.
inline scene::Scene random_scene(Dice& dice) {
    scene::Scene scene;
    scene.site.plan_up_bearing = Angle::degrees(dice.between(0.0, 360.0));
    scene.ground = {Angle::degrees(dice.between(0.0, 12.0)), Angle::degrees(dice.between(0, 360))};
    const auto place = [&] { return Vec2{dice.between(-6.0, 6.0), dice.between(-6.0, 6.0)}; };
    // Bearings of a bench are true, so that its outline follows from the plan's own turn.
    auto bench = rectangular_bench(place(), 0.0, dice.between(1.0, 3.0),
                                   {tier(0.5, 0.0, 0.3), tier(0.8, 0.3, 0.4)});
    bench.bearing = scene.site.plan_up_bearing;
    bench.board_width_m = 0.09;
    bench.board_gap_m = 0.015;
    bench.tiers[1].closed_riser = true;
    scene.benches.push_back(bench);
    scene::PostStand post;
    post.label = label("P");
    post.position = place();
    post.bearing = Angle::degrees(dice.between(0.0, 90.0));
    scene.post_stands.push_back(post);
    const Vec2 a = place();
    scene.walls.push_back(wall_along({a, a + place(), a + place(), a + place()}, 1.8, 0.2));
    const Vec2 b = place();
    const auto corner = [&](double x, double y) { return b + Vec2{x, y}; };
    auto house = building_on(
        {corner(0, 0), corner(4, 0), corner(4, 3), corner(2, 3), corner(2, 1.5), corner(0, 1.5)},
        2.5);
    house.roof = dice.between(0.0, 1.0) < 0.5 ? scene::RoofForm::gable : scene::RoofForm::shed;
    house.ridge_height_m = 4.0;
    house.ridge_bearing = Angle::degrees(dice.between(0.0, 360.0));
    house.eaves_overhang_m = 0.3;
    scene.buildings.push_back(house);
    scene.cloths.push_back(cloth_of({{0, 0, 2.2}, {3, 0, 2.4}, {3, 2, 2.0}, {0, 2, 2.6}}, 0.4));
    scene.cloths.back().sag_fraction = 0.04;
    scene.cloths.back().flaps = {{1, 0.8}};
    scene.lath_panels.push_back(level_laths(2.5));
    scene.lath_panels.back().bearing = Angle::degrees(dice.between(0.0, 360.0));
    scene.lath_panels.back().tilt = Angle::degrees(dice.between(-40.0, 40.0));
    scene.trees.push_back(tree_at(place()));
    return scene;
}

}  // namespace sunfleck::geometry
