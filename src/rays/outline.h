#pragma once

#include "sunfleck/rays/sight.h"

namespace sunfleck::rays {

/// The outline of a closed convex solid. Facets of one face are merged. `is_closed` is false
/// when its facets do not fit together edge to edge.
[[nodiscard]] Outline outline_of(const geometry::ConvexSolid& solid);
/// The outline of a cloth: its border, and between facets of a sagging one every edge, since any
/// may be a fold as seen from somewhere.
[[nodiscard]] Outline outline_of(const geometry::Sheet& sheet);
/// The outline of an upright box.
[[nodiscard]] Outline outline_of_box(Vec3 low, Vec3 high);
/// Its twelve triangles, outward.
[[nodiscard]] std::vector<geometry::Triangle> facets_of_box(Vec3 low, Vec3 high);

}  // namespace sunfleck::rays
