#pragma once

#include "sunfleck/base/vec3.h"

#include <cmath>

namespace sunfleck::geometry {

/// False only when the ray surely misses the box grown by 1 nanometre.
///
/// Separating axes of a half line and a box, without a division: the three axes of the box, and
/// their products with the direction. Directions with zero components need no care.
[[nodiscard]] inline bool may_meet_box(Vec3 low, Vec3 high, Vec3 origin, Vec3 direction) {
    constexpr double grown_m = 1e-9;
    const Vec3 half{0.5 * (high.x - low.x) + grown_m, 0.5 * (high.y - low.y) + grown_m,
                    0.5 * (high.z - low.z) + grown_m};
    const Vec3 from{origin.x - 0.5 * (high.x + low.x), origin.y - 0.5 * (high.y + low.y),
                    origin.z - 0.5 * (high.z + low.z)};
    const auto leaves = [](double place, double extent, double speed) {
        return std::abs(place) > extent && place * speed >= 0.0;
    };
    if (leaves(from.z, half.z, direction.z) || leaves(from.x, half.x, direction.x) ||
        leaves(from.y, half.y, direction.y)) {
        return false;
    }
    const Vec3 speed{std::abs(direction.x), std::abs(direction.y), std::abs(direction.z)};
    const Vec3 arm = cross(direction, from);
    return std::abs(arm.x) <= half.y * speed.z + half.z * speed.y &&
           std::abs(arm.y) <= half.x * speed.z + half.z * speed.x &&
           std::abs(arm.z) <= half.x * speed.y + half.y * speed.x;
}

}  // namespace sunfleck::geometry
