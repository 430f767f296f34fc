#pragma once

#include "sunfleck/geometry/piece.h"

#include <span>

namespace sunfleck::bench {

/// How far a ray passes from the nearest edge of some triangles.
struct EdgeDistance {
    double angle_rad = 4.0;   ///< as seen from the ray's origin
    double distance_m = 0.0;  ///< from the origin to the nearest point of that edge
};

[[nodiscard]] EdgeDistance nearest_edge(std::span<const geometry::Triangle> triangles, Vec3 origin,
                                        Vec3 direction);

}  // namespace sunfleck::bench
