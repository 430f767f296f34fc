#pragma once

#include "scene/object_keys.h"
#include "sunfleck/scene/scene.h"

namespace sunfleck::scene {

/// The most pots, or batches of pots, of one scene.
inline constexpr std::size_t most_pots = 20000;

/// The whole of a scene file.
[[nodiscard]] const ObjectKeys<Scene>& scene_keys();
[[nodiscard]] const ObjectKeys<Site>& site_keys();
[[nodiscard]] const ObjectKeys<Ground>& ground_keys();
[[nodiscard]] const ObjectKeys<Pot>& pot_keys();

// The keys of each kind of thing, one file each.
void add_bench_keys(ObjectKeys<Scene>& keys);
void add_structure_keys(ObjectKeys<Scene>& keys);
void add_shade_keys(ObjectKeys<Scene>& keys);
void add_tree_keys(ObjectKeys<Scene>& keys);
void add_mesh_keys(ObjectKeys<Scene>& keys);
void add_pot_keys(ObjectKeys<Scene>& keys);

/// The true bearing from one plan point to another.
[[nodiscard]] Angle bearing_between(Vec2 from, Vec2 to, const Reading& reading);
/// The four corners, counter-clockwise, of a rectangle that lies to the left of the edge from
/// `corner` along `bearing`.
[[nodiscard]] std::vector<Vec2> rectangle(Vec2 corner, Angle bearing, double length_m,
                                          double depth_m, const Reading& reading);
}  // namespace sunfleck::scene
