#include "sunfleck/exposure/sun_arc.h"

#include "sunfleck/sun/refraction.h"
#include "sunfleck/sun/solar_position.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdlib>

namespace sunfleck::exposure {
namespace {

constexpr double step_s = 60.0;
constexpr double hour_s = 3600.0;

Vec3 sun_direction(UtcSeconds instant, const sun::Place& place, bool is_refracted) {
    const sun::SolarPosition position = sun::solar_position(instant, place);
    Angle altitude = position.altitude_true;
    if (is_refracted) altitude = altitude + sun::refraction(altitude);
    return sun::direction(position.azimuth, altitude);
}

// How far a solar noon lies from the civil noon of `date`, seconds.
double off_civil_noon_s(UtcSeconds noon, Date date, const sun::TimeZone& zone) {
    const sun::ClockTime clock = zone.clock(noon);
    constexpr double civil_noon_s = 43200.0;
    return std::abs(days_between(date, clock.date) * 86400.0 + clock.seconds_of_day - civil_noon_s);
}

}  // namespace

SunArc::SunArc(UtcSeconds from, UtcSeconds to, const sun::Place& place, const SunModel& model)
    : from_(from), to_(to) {
    const double seconds = std::max(0.0, to.seconds_after(from));
    const auto count = static_cast<std::size_t>(std::ceil(seconds / step_s)) + 4;
    nodes_.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double after_s = (static_cast<double>(i) - 1.0) * step_s;
        nodes_.push_back(sun_direction(from.plus_seconds(after_s), place, model.is_refracted));
    }
    const double distance_au =
        sun::solar_position(from.plus_seconds(0.5 * seconds), place).distance_au;
    disk_radius_ = (0.5 / distance_au) * model.diameter;
}

Vec3 SunArc::direction(UtcSeconds instant) const {
    const double last_start = static_cast<double>(nodes_.size()) - 4.0;
    const double at = std::clamp(instant.seconds_after(from_) / step_s, 0.0, last_start + 1.0);
    const double start = std::min(std::floor(at), last_start);
    const double u = at - start;  // 0 to 1 between the second and third of four nodes
    const Vec3* node = &nodes_[static_cast<std::size_t>(start)];
    // Lagrange's cubic through nodes at -1, 0, 1, 2.
    const double w0 = -u * (u - 1.0) * (u - 2.0) / 6.0;
    const double w1 = (u + 1.0) * (u - 1.0) * (u - 2.0) / 2.0;
    const double w2 = -(u + 1.0) * u * (u - 2.0) / 2.0;
    const double w3 = (u + 1.0) * u * (u - 1.0) / 6.0;
    return normalised(w0 * node[0] + w1 * node[1] + w2 * node[2] + w3 * node[3]);
}

rays::Beam SunArc::beam(Vec3 origin, UtcSeconds from, UtcSeconds to) const {
    // A point of a path between two ends lies within half the path's length of their middle: the
    // ellipse around both ends. The path exceeds the straight way by less than 2 % (an hour on a
    // circle of declination 24 degrees: 0.07 %; the rest is for the lift of refraction).
    constexpr double longest_detour = 1.02;
    const Vec3 first = direction(from);
    const Vec3 last = direction(to);
    const double half_way = std::asin(std::min(1.0, 0.5 * length(last - first)));
    return {.origin = origin,
            .axis = normalised(first + last),
            .half_angle =
                Angle::radians(longest_detour * half_way) + disk_radius_ + Angle::radians(1e-6)};
}

sun::SunDay civil_sun_day(Date date, const sun::Place& place, const sun::TimeZone& zone) {
    sun::SunDay best = sun::sun_day(date, place);
    double best_off_s = off_civil_noon_s(best.solar_noon, date, zone);
    for (const int shift : {-1, 1}) {
        const sun::SunDay other = sun::sun_day(add_days(date, shift), place);
        const double off_s = off_civil_noon_s(other.solar_noon, date, zone);
        if (off_s < best_off_s) {
            best = other;
            best_off_s = off_s;
        }
    }
    return best;
}

HotHours hot_hours(const sun::SunDay& day) {
    return {.from = day.solar_noon.plus_seconds(-1.0 * hour_s),
            .to = day.solar_noon.plus_seconds(4.0 * hour_s)};
}

}  // namespace sunfleck::exposure
