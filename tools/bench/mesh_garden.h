#pragma once

#include "sunfleck/geometry/garden.h"

#include <vector>

namespace sunfleck::bench {

/// What a caster of triangles sees of a garden.
struct MeshGarden {
    struct Net {
        std::vector<geometry::Triangle> facets;
        double transmittance = 0.0;
    };
    struct Crown {
        std::vector<geometry::Triangle> facets;  ///< outward
        double k_per_m = 0.0;
    };
    std::vector<geometry::Triangle> opaque;
    std::vector<Net> nets;
    std::vector<Crown> crowns;

    [[nodiscard]] std::size_t triangle_count() const;
};

/// Opaque solids, laths and plane nets by their facets, crowns as meshes of 8 x 4^halvings
/// triangles.
[[nodiscard]] MeshGarden mesh_of(const geometry::Garden& garden, int crown_halvings);

}  // namespace sunfleck::bench
