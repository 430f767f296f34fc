#pragma once

#include "sunfleck/base/vec3.h"
#include "sunfleck/geometry/piece.h"

#include <vector>

namespace sunfleck::geometry {

/// The shadow of a piece on the level plane at `level_z_m`, for pictures: convex outlines
/// in world x and y, counter-clockwise, whose union is the shadow of what stands above the plane.
/// Empty when the sun is not above the plane or nothing of the piece is.
///
/// Exact for solids, cloths (facet by facet when they sag), laths (each lath apart) and meshes.
/// A crown's outline has 128 corners that lie on the true one: its area is 0.04 % short.
[[nodiscard]] std::vector<std::vector<Vec2>> shadow_outlines(const Piece& piece, Vec3 to_sun,
                                                             double level_z_m);

}  // namespace sunfleck::geometry
