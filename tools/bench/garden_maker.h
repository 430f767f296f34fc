#pragma once

#include "sunfleck/geometry/garden.h"

#include <cstdint>
#include <string>
#include <vector>

namespace sunfleck::bench {

enum class GardenSize { small, medium, large };

/// A generated garden, the same on every machine, and the spots in it.
struct TestGarden {
    std::string name;  ///< S, M or L
    geometry::Garden garden;
    std::vector<Vec3> spots;
    std::uint32_t dragged_object = 0;  ///< a tree
    /// How many halvings of an octahedron's edges a crown's mesh has: 8, 32, 512 triangles.
    int crown_halvings = 0;
};

/// S: about 300 triangles and 200 spots; M: 1,300 and 2,000; L: 25,000, of which 400 laths, and
/// 20,000. Benches with legs and two tiers, walls, fences, sheds, nets on posts, trees, laths.
[[nodiscard]] TestGarden make_garden(GardenSize size);

/// Blocks, tilted laths, a net and a tree thrown together within some 10 m, spots among them.
[[nodiscard]] TestGarden make_random_garden(std::uint64_t seed, int blocks, int spots);

/// The garden with every lath a solid of its own: what casters of rays are given, and the truth
/// for a product that is told to resolve all laths.
[[nodiscard]] geometry::Garden with_single_laths(const geometry::Garden& garden);

/// The opaque solids and laths alone; pieces keep their order.
[[nodiscard]] geometry::Garden opaque_part(const geometry::Garden& garden);

/// The garden with one object moved.
[[nodiscard]] geometry::Garden with_moved(const geometry::Garden& garden, std::uint32_t object,
                                          Vec3 by);

}  // namespace sunfleck::bench
