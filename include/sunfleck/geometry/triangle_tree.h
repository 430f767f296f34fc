#pragma once

#include "sunfleck/base/vec3.h"

#include <cstdint>
#include <vector>

namespace sunfleck::geometry {

struct Triangle {
    Vec3 a;
    Vec3 b;
    Vec3 c;
};

/// Boxes within boxes over a list of triangles, so that a ray looks at few of them.
struct TriangleTree {
    struct Node {
        Vec3 low;
        Vec3 high;
        std::uint32_t first = 0;  ///< leaf: its first triangle; else the first of two children
        std::uint32_t count = 0;  ///< triangles of a leaf; 0: not a leaf
    };
    std::vector<Node> nodes;  ///< nodes[0] is the root; empty for no triangles
};

/// Builds the tree and puts the triangles in the order of its leaves. Equal input, equal tree.
[[nodiscard]] TriangleTree build_triangle_tree(std::vector<Triangle>& triangles);

/// Number of times the ray crosses the surface, at least 1 micrometre from its origin, counted up
/// to `most`. Crossings closer than 1 micrometre to each other (the edge shared by two triangles)
/// count once. A ray within a triangle's plane does not cross it. Without nodes, every triangle is
/// tried. No ray slips between two triangles that share both ends of an edge.
[[nodiscard]] int count_crossings(const std::vector<Triangle>& triangles, const TriangleTree& tree,
                                  Vec3 origin, Vec3 direction, int most);

}  // namespace sunfleck::geometry
