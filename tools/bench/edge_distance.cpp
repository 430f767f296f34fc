#include "edge_distance.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::bench {
namespace {

double angle_rad(Vec3 a, Vec3 b) {
    return std::atan2(length(cross(a, b)), dot(a, b));
}

/// The angle between a unit vector and the arc from `a` to `b`, seen from the origin.
double angle_to_arc_rad(Vec3 a, Vec3 b, Vec3 d) {
    const double to_ends = std::min(angle_rad(a, d), angle_rad(b, d));
    const Vec3 pole = cross(a, b);
    if (!(length(pole) > 0.0)) return to_ends;
    const bool is_beside = dot(cross(pole, a), d) >= 0.0 && dot(cross(b, pole), d) >= 0.0;
    if (!is_beside) return to_ends;
    return std::asin(std::min(1.0, std::abs(dot(normalised(pole), d))));
}

double distance_to_segment_m(Vec3 a, Vec3 b) {
    const Vec3 way = b - a;
    const double size = dot(way, way);
    const double share = size > 0.0 ? std::clamp(-dot(a, way) / size, 0.0, 1.0) : 0.0;
    return length(a + share * way);
}

}  // namespace

EdgeDistance nearest_edge(std::span<const geometry::Triangle> triangles, Vec3 origin,
                          Vec3 direction) {
    EdgeDistance nearest;
    const auto look_at = [&](Vec3 a, Vec3 b) {
        const double angle = angle_to_arc_rad(a - origin, b - origin, direction);
        if (!(angle < nearest.angle_rad)) return;
        nearest = {.angle_rad = angle, .distance_m = distance_to_segment_m(a - origin, b - origin)};
    };
    for (const geometry::Triangle& t : triangles) {
        look_at(t.a, t.b);
        look_at(t.b, t.c);
        look_at(t.c, t.a);
    }
    return nearest;
}

}  // namespace sunfleck::bench
