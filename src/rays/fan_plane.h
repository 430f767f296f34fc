#pragma once

#include "sunfleck/geometry/ray_fan.h"

#include <span>

namespace sunfleck::rays {

/// Raises each number to how far its ray lies outside of the plane through the fan's origin:
/// dot(normal, ray), the ray not made unit, which its sign does not mind.
inline void raise_to_plane(const geometry::RayFan& fan, Vec3 normal, std::span<double> outside) {
    const double middle = dot(normal, fan.centre);
    const double per_x = dot(normal, fan.side);
    const double per_y = dot(normal, fan.over);
    const double* x = fan.x.data();
    const double* y = fan.y.data();
    double* highest = outside.data();
    for (std::size_t i = 0; i < outside.size(); ++i) {
        const double here = middle + per_x * x[i] + per_y * y[i];
        highest[i] = here > highest[i] ? here : highest[i];
    }
}

}  // namespace sunfleck::rays
