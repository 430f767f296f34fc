#pragma once

#include "geometry/flat_outline.h"
#include "sunfleck/geometry/piece.h"

#include <vector>

namespace sunfleck::geometry {

/// A height that is linear in world x and y: the ground, a level, a roof.
struct HeightPlane {
    double at_origin_m = 0.0;
    Vec2 rise_per_m;
    [[nodiscard]] double operator()(Vec2 p) const { return at_origin_m + dot(rise_per_m, p); }
    [[nodiscard]] HeightPlane raised(double by_m) const { return {at_origin_m + by_m, rise_per_m}; }
};

[[nodiscard]] inline HeightPlane level(double z_m) {
    return {z_m, {}};
}

/// A convex body as its faces, each counter-clockwise seen from outside.
using Polyhedron = std::vector<std::vector<Vec3>>;

/// The body over a convex outline between two heights, `top` nowhere below `bottom`.
[[nodiscard]] Polyhedron prism(const Outline& convex, HeightPlane bottom, HeightPlane top);

/// The part of the body under the height plane; empty when there is none.
[[nodiscard]] Polyhedron cut_below(const Polyhedron& body, HeightPlane height);

/// Planes and facets of the body. Faces without area are left out.
[[nodiscard]] ConvexSolid solid_of(const Polyhedron& body, double transmittance = 0.0);

}  // namespace sunfleck::geometry
