#pragma once

#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/scene/scene.h"

#include <vector>

namespace sunfleck::geometry {

/// The far horizon and the ground plane, as the lowest altitude at which sky is seen.
struct Horizon {
    std::vector<scene::HorizonPoint> profile;  ///< by true azimuth ascending; empty: level
    Vec3 ground_normal{0.0, 0.0, 1.0};         ///< unit normal of the ground plane
};

/// True when the sky is seen in that direction over the far horizon and the ground plane.
[[nodiscard]] bool is_over_horizon(const Horizon& horizon, Vec3 direction);

/// Altitude of the horizon at a true azimuth: the higher of profile and ground plane. The profile
/// is linear in azimuth between its points, also over north.
[[nodiscard]] Angle horizon_altitude(const Horizon& horizon, Angle azimuth);

}  // namespace sunfleck::geometry
