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

// A hidden part more. Whole hides all; what is mixed twice stays mixed.
void hide(SkyInBeam& sky, rays::Cover part) {
    if (part == rays::Cover::none || sky.hidden == rays::Cover::whole) return;
    sky.hidden = part;
}

Vec3 towards(double azimuth, double altitude) {
    return {std::cos(altitude) * std::sin(azimuth), std::cos(altitude) * std::cos(azimuth),
            std::sin(altitude)};
}

// A line that is straight in azimuth and altitude, against the great circle through its ends.
// There tan(altitude) = k sin(azimuth - node), whose second derivative is
// -sin h cos h - 2 h'^2 tan h; the gap is at most half of it times half the length squared.
bool is_nearly_great_circle(double half_span, double start, double end) {
    constexpr double longest = 0.5;    // radians
    constexpr double most_off = 1e-5;  // radians: 0.0006 degrees
    const double high = std::max(start, end);
    const double half_rise = 0.5 * (end - start);
    return half_span < longest &&
           0.5 * half_span * half_span * std::sin(high) + half_rise * half_rise * std::tan(high) <
               most_off;
}

}  // namespace

Skyline::Skyline(const geometry::Horizon& horizon)
    : profile_(horizon), ground_normal_(horizon.ground_normal) {
    profile_.ground_normal = {0.0, 0.0, 1.0};
    for (const scene::HorizonPoint& point : profile_.profile) {
        top_ = std::max(top_, point.altitude);
        has_dips_ = has_dips_ || point.altitude < Angle{};
    }
}

SkyInBeam Skyline::in(const rays::Beam& beam) const {
    SkyInBeam sky;
    const double sine = sin(beam.half_angle);
    const double above_ground = dot(ground_normal_, beam.axis);
    if (above_ground < -sine) {
        hide(sky, rays::Cover::whole);
        return sky;
    }
    if (above_ground <= sine) {
        hide(sky, rays::Cover::mixed);
        sky.add(ground_normal_);
    }
    look_at_profile(beam, sky);
    return sky;
}

void Skyline::look_at_profile(const rays::Beam& beam, SkyInBeam& sky) const {
    const double half = beam.half_angle.in_radians();
    const double altitude = std::asin(std::clamp(beam.axis.z, -1.0, 1.0));
    if (altitude + half < 0.0) return hide(sky, rays::Cover::whole);
    if (altitude - half > top_.in_radians()) return;
    if (profile_.profile.empty()) {
        hide(sky, rays::Cover::mixed);
        const Vec3 level{0.0, 0.0, 1.0};
        if (!(ground_normal_ == level)) sky.add(level);
        return;
    }
    // Between its points the profile runs straight, so its extremes lie at the span's ends or at
    // points within.
    const double azimuth = std::atan2(beam.axis.x, beam.axis.y);
    const double span = half_azimuth_span(altitude, half);
    const double start =
        geometry::horizon_altitude(profile_, Angle::radians(azimuth - span)).in_radians();
    const double end =
        geometry::horizon_altitude(profile_, Angle::radians(azimuth + span)).in_radians();
    double low = std::min(start, end);
    double high = std::max(start, end);
    bool has_points = false;
    for (const scene::HorizonPoint& point : profile_.profile) {
        if (turn_apart(point.azimuth.in_radians(), azimuth) > span) continue;
        has_points = true;
        const double height = std::max(0.0, point.altitude.in_radians());
        low = std::min(low, height);
        high = std::max(high, height);
    }
    if (altitude + half < low) return hide(sky, rays::Cover::whole);
    if (altitude - half > high) return;
    hide(sky, rays::Cover::mixed);
    if (has_points || has_dips_ || !is_nearly_great_circle(span, start, end)) {
        sky.is_straight = false;
        return;
    }
    const Vec3 edge =
        normalised(cross(towards(azimuth + span, end), towards(azimuth - span, start)));
    const bool is_ground = sky.count > 0 && dot(edge, ground_normal_) > 1.0 - 1e-12;
    if (!is_ground) sky.add(edge);
}

}  // namespace sunfleck::exposure
