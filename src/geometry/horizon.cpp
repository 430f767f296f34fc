#include "sunfleck/geometry/horizon.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunfleck::geometry {
namespace {

constexpr double full_turn = 2.0 * std::numbers::pi;

double within_turn(double radians) {
    const double rest = std::fmod(radians, full_turn);
    return rest < 0.0 ? rest + full_turn : rest;
}

/// Altitude in radians, linear between the two points around the azimuth.
double profile_altitude(const std::vector<scene::HorizonPoint>& profile, double azimuth) {
    const auto azimuth_of = [](const scene::HorizonPoint& p) { return p.azimuth.in_radians(); };
    const auto next = std::upper_bound(
        profile.begin(), profile.end(), azimuth,
        [&](double value, const scene::HorizonPoint& p) { return value < azimuth_of(p); });
    const scene::HorizonPoint& after = next == profile.end() ? profile.front() : *next;
    const scene::HorizonPoint& before = next == profile.begin() ? profile.back() : *(next - 1);
    const double from = azimuth_of(before) - (next == profile.begin() ? full_turn : 0.0);
    const double to = azimuth_of(after) + (next == profile.end() ? full_turn : 0.0);
    const double share = to > from ? (azimuth - from) / (to - from) : 0.0;
    return before.altitude.in_radians() +
           share * (after.altitude.in_radians() - before.altitude.in_radians());
}

/// Altitude in radians of the ground plane's own horizon.
double ground_altitude(Vec3 normal, double azimuth) {
    return std::atan2(-(normal.x * std::sin(azimuth) + normal.y * std::cos(azimuth)), normal.z);
}

}  // namespace

bool is_over_horizon(const Horizon& horizon, Vec3 direction) {
    if (!(dot(horizon.ground_normal, direction) > 0.0)) return false;
    if (horizon.profile.empty()) return direction.z > 0.0;
    const double level = std::sqrt(direction.x * direction.x + direction.y * direction.y);
    const double azimuth = within_turn(std::atan2(direction.x, direction.y));
    return std::atan2(direction.z, level) > profile_altitude(horizon.profile, azimuth);
}

Angle horizon_altitude(const Horizon& horizon, Angle azimuth) {
    const double turned = within_turn(azimuth.in_radians());
    const double profile =
        horizon.profile.empty() ? 0.0 : profile_altitude(horizon.profile, turned);
    return Angle::radians(std::max(profile, ground_altitude(horizon.ground_normal, turned)));
}

}  // namespace sunfleck::geometry
