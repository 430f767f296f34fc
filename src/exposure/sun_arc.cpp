#include "sunfleck/exposure/sun_arc.h"

#include "sunfleck/sun/sun_track.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdlib>

namespace sunfleck::exposure {
namespace {

constexpr double step_s = 60.0;

}  // namespace

SunArc::SunArc(UtcSeconds from, UtcSeconds to, const sun::Place& place, const SunModel& model)
    : from_(from), to_(to) {
    const double seconds = std::max(0.0, to.seconds_after(from));
    const auto count = static_cast<std::size_t>(std::ceil(seconds / step_s)) + 4;
    const double last_s = (static_cast<double>(count) - 2.0) * step_s;
    const sun::SunTrack track(place, from.plus_seconds(-step_s), from.plus_seconds(last_s));
    nodes_.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double after_s = (static_cast<double>(i) - 1.0) * step_s;
        const UtcSeconds instant = std::clamp(from.plus_seconds(after_s), track.from(), track.to());
        nodes_.push_back(model.is_refracted ? track.apparent_direction(instant)
                                            : track.true_direction(instant));
    }
    if (model.has_disk) disk_radius_ = track.disk_radius(from.plus_seconds(0.5 * seconds));
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

HotHours hot_hours(const sun::SunDay& day) {
    return {.from = sun::solar_clock(day, 11.0), .to = sun::solar_clock(day, 16.0)};
}

}  // namespace sunfleck::exposure
