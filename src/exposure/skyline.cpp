#include "exposure/skyline.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunfleck::exposure {
namespace {

constexpr double full_turn = 2.0 * std::numbers::pi;

// Half of the span of azimuths that a beam takes; the full circle when it holds the zenith.
double half_azimuth_span(double altitude, double half_angle) {
    if (altitude + half_angle >= 0.5 * std::numbers::pi - 1e-6) return std::numbers::pi;
    return std::asin(std::min(1.0, std::sin(half_angle) / std::cos(altitude)));
}

double turn_apart(double a, double b) {
    return std::abs(std::remainder(a - b, full_turn));
}

}  // namespace

Skyline::Skyline(const geometry::Horizon& horizon)
    : profile_(horizon), ground_normal_(horizon.ground_normal) {
    profile_.ground_normal = {0.0, 0.0, 1.0};
    for (const scene::HorizonPoint& point : profile_.profile) top_ = std::max(top_, point.altitude);
}

rays::Cover Skyline::cover(const rays::Beam& beam) const {
    const double half = beam.half_angle.in_radians();
    const double above_ground = dot(ground_normal_, beam.axis);
    if (above_ground < -std::sin(half)) return rays::Cover::whole;
    const bool is_clear_of_ground = above_ground > std::sin(half);
    const double altitude = std::asin(std::clamp(beam.axis.z, -1.0, 1.0));
    if (altitude + half < 0.0) return rays::Cover::whole;
    if (is_clear_of_ground && altitude - half > top_.in_radians()) return rays::Cover::none;

    // Between its points the profile runs straight, so its extremes lie at the span's ends or at
    // points within.
    const double azimuth = std::atan2(beam.axis.x, beam.axis.y);
    const double span = half_azimuth_span(altitude, half);
    double low = 0.5 * std::numbers::pi;
    double high = -low;
    const auto take = [&](Angle height) {
        low = std::min(low, height.in_radians());
        high = std::max(high, height.in_radians());
    };
    for (const double end : {azimuth - span, azimuth + span}) {
        take(geometry::horizon_altitude(profile_, Angle::radians(end)));
    }
    for (const scene::HorizonPoint& point : profile_.profile) {
        if (turn_apart(point.azimuth.in_radians(), azimuth) <= span) {
            take(std::max(point.altitude, Angle{}));
        }
    }
    if (altitude + half < low) return rays::Cover::whole;
    if (is_clear_of_ground && altitude - half > high) return rays::Cover::none;
    return rays::Cover::mixed;
}

}  // namespace sunfleck::exposure
