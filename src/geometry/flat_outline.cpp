#include "geometry/flat_outline.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::geometry {

double signed_area(const Outline& outline) {
    double twice = 0.0;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        twice += cross(outline[i], outline[(i + 1) % outline.size()]);
    }
    return 0.5 * twice;
}

Outline clipped(const Outline& convex, Vec2 normal, double offset) {
    constexpr double on_line_m = 1e-12;
    Outline kept;
    for (std::size_t i = 0; i < convex.size(); ++i) {
        const Vec2 from = convex[i];
        const Vec2 to = convex[(i + 1) % convex.size()];
        const double from_over = dot(normal, from) - offset;
        const double to_over = dot(normal, to) - offset;
        if (from_over <= on_line_m) kept.push_back(from);
        if ((from_over < -on_line_m && to_over > on_line_m) ||
            (from_over > on_line_m && to_over < -on_line_m)) {
            kept.push_back(from + (from_over / (from_over - to_over)) * (to - from));
        }
    }
    if (kept.size() < 3 || signed_area(kept) < 1e-10) kept.clear();
    return kept;
}

Outline convex_hull(std::vector<Vec2> points) {
    std::sort(points.begin(), points.end(),
              [](Vec2 a, Vec2 b) { return a.x < b.x || (!(b.x < a.x) && a.y < b.y); });
    if (points.size() < 3) return {};
    // Andrew's monotone chain: the lower half from left to right, then the upper half back.
    Outline hull;
    const auto add = [&hull](Vec2 p, std::size_t least) {
        while (hull.size() > least) {
            const Vec2 edge = hull.back() - hull[hull.size() - 2];
            if (cross(edge, p - hull.back()) > 1e-9 * length(edge)) break;
            hull.pop_back();
        }
        hull.push_back(p);
    };
    for (const Vec2 p : points) add(p, 1);
    const std::size_t lower = hull.size();
    for (auto p = points.rbegin() + 1; p != points.rend(); ++p) add(*p, lower);
    hull.pop_back();
    if (hull.size() < 3) hull.clear();
    return hull;
}

Outline rectangle(Vec2 corner, Vec2 along, double length_m, double depth_m) {
    const Vec2 side = depth_m * left_of(along);
    const Vec2 end = corner + length_m * along;
    return {corner, end, end + side, corner + side};
}

Outline widened(const Outline& outline, double distance_m) {
    Outline result;
    const std::size_t count = outline.size();
    for (std::size_t i = 0; i < count; ++i) {
        const Vec2 in = outline[i] - outline[(i + count - 1) % count];
        const Vec2 out = outline[(i + 1) % count] - outline[i];
        if (!(length(in) > 0.0) || !(length(out) > 0.0)) continue;
        const Vec2 in_dir = (1.0 / length(in)) * in;
        const Vec2 out_dir = (1.0 / length(out)) * out;
        const Vec2 in_side = -1.0 * left_of(in_dir);
        const Vec2 out_side = -1.0 * left_of(out_dir);
        // The mitre's tip lies at distance / cos(half the turn) along the normals' middle.
        const double with = 1.0 + dot(in_side, out_side);
        if (with >= 0.5) {
            result.push_back(outline[i] + (distance_m / with) * (in_side + out_side));
        } else {
            result.push_back(outline[i] + distance_m * (in_side + in_dir));
            result.push_back(outline[i] + distance_m * (out_side - out_dir));
        }
    }
    return result;
}

}  // namespace sunfleck::geometry
