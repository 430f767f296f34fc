#pragma once

#include "sunfleck/geometry/piece.h"

#include <vector>

namespace sunfleck::bench {

/// A mesh inscribed in an ellipsoid crown: an octahedron whose edges are halved `halvings` times,
/// 8 x 4^halvings triangles, all facing outward. Being inscribed it is too thin, by a part that
/// each halving takes to about a quarter.
[[nodiscard]] std::vector<geometry::Triangle> crown_mesh(const geometry::Crown& crown,
                                                         int halvings);

}  // namespace sunfleck::bench
