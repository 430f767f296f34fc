#include "mesh_garden.h"

#include "crown_mesh.h"
#include "garden_maker.h"
#include "sunfleck/base/require.h"

#include <variant>

namespace sunfleck::bench {

std::size_t MeshGarden::triangle_count() const {
    std::size_t count = opaque.size();
    for (const Net& net : nets) count += net.facets.size();
    for (const Crown& crown : crowns) count += crown.facets.size();
    return count;
}

MeshGarden mesh_of(const geometry::Garden& garden, int crown_halvings) {
    MeshGarden mesh;
    for (const geometry::Piece& piece : with_single_laths(garden).pieces) {
        if (const auto* solid = std::get_if<geometry::ConvexSolid>(&piece.body)) {
            SUNFLECK_REQUIRE(!(solid->transmittance > 0.0), "the meshes know opaque solids only");
            mesh.opaque.insert(mesh.opaque.end(), solid->facets.begin(), solid->facets.end());
        } else if (const auto* sheet = std::get_if<geometry::Sheet>(&piece.body)) {
            SUNFLECK_REQUIRE(sheet->is_planar, "the meshes know plane nets only");
            mesh.nets.push_back({.facets = sheet->facets, .transmittance = sheet->transmittance});
        } else if (const auto* crown = std::get_if<geometry::Crown>(&piece.body)) {
            mesh.crowns.push_back(
                {.facets = crown_mesh(*crown, crown_halvings), .k_per_m = piece.k_in_leaf_per_m});
        } else {
            SUNFLECK_REQUIRE(false, "the generated gardens have no other bodies");
        }
    }
    return mesh;
}

}  // namespace sunfleck::bench
