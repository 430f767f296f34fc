#pragma once

#include <cmath>
#include <numbers>

namespace sunfleck::sun {

/// The same angle in [0, 2 pi).
[[nodiscard]] inline double full_turn_rad(double angle_rad) {
    constexpr double turn = 2.0 * std::numbers::pi;
    const double reduced = angle_rad - turn * std::floor(angle_rad / turn);
    return reduced < turn ? reduced : 0.0;
}

/// The same angle in (-pi, pi].
[[nodiscard]] inline double half_turn_rad(double angle_rad) {
    return std::numbers::pi - full_turn_rad(std::numbers::pi - angle_rad);
}

}  // namespace sunfleck::sun
