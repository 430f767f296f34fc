#pragma once

#include "geometry/terrain.h"
#include "sunfleck/base/problem.h"
#include "sunfleck/geometry/piece.h"
#include "sunfleck/scene/scene.h"

#include <filesystem>
#include <vector>

/// The pieces of each kind of object. Object numbers and boxes are set by build_garden.
namespace sunfleck::geometry {

[[nodiscard]] Result<std::vector<Piece>> pieces_of(const scene::Bench& bench,
                                                   const Terrain& terrain);
[[nodiscard]] std::vector<Piece> pieces_of(const scene::PostStand& stand, const Terrain& terrain);
[[nodiscard]] std::vector<Piece> pieces_of(const scene::Wall& wall, const Terrain& terrain);
[[nodiscard]] Result<std::vector<Piece>> pieces_of(const scene::Building& building,
                                                   const Terrain& terrain);
[[nodiscard]] std::vector<Piece> pieces_of(const scene::Cloth& cloth, const Terrain& terrain);
[[nodiscard]] std::vector<Piece> pieces_of(const scene::LathPanel& panel, const Terrain& terrain);
/// `latitude` chooses the leaves' dates when the tree gives none.
[[nodiscard]] std::vector<Piece> pieces_of(const scene::Tree& tree, const Terrain& terrain,
                                           Latitude latitude);
/// `scene_file` names the scene, for its folder and for messages.
[[nodiscard]] Result<std::vector<Piece>> pieces_of(const scene::Mesh& mesh, const Terrain& terrain,
                                                   const std::string& scene_file);

/// Appends the body as a piece, unless it has no volume.
void add_solid(std::vector<Piece>& pieces, const Polyhedron& body, double transmittance = 0.0);

/// The problem of an outline that crosses itself.
[[nodiscard]] Problem crossing_outline(const scene::Label& label);

}  // namespace sunfleck::geometry
