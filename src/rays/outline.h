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

/// A face seen this nearly edge-on, or an edge seen this nearly end-on, has no width in view.
inline constexpr double no_width = 1e-12;

[[nodiscard]] bool is_seen_from(const geometry::Plane& face, Vec3 origin);
[[nodiscard]] Vec3 middle_of(const Outline& outline);
/// Appends the outward unit normal of the plane through the origin and an edge, turned so that
/// `middle` is inside; nothing when the edge has no width in view.
void add_plane(Vec3 origin, Vec3 a, Vec3 b, Vec3 middle, std::vector<Vec3>& planes);

/// The cone that a closed convex body fills in view; empty from within.
struct ConeInView {
    bool is_within = false;
    std::vector<Vec3> planes;
};
[[nodiscard]] ConeInView cone_in_view(const Outline& outline, Vec3 origin);

}  // namespace sunfleck::rays
