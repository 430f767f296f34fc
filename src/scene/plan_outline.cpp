#include "scene/plan_outline.h"

#include <algorithm>
#include <limits>

namespace sunfleck::scene {
namespace {

struct Edge {
    Vec2 a;
    Vec2 b;
};

Edge edge_of(std::span<const Vec2> outline, std::size_t i) {
    return {outline[i], outline[(i + 1) % outline.size()]};
}

/// x where the edge crosses the level y, when it does.
std::optional<double> crossing_x(Edge edge, double y) {
    const auto [a, b] = edge;
    if ((a.y > y) == (b.y > y)) return std::nullopt;
    return a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x);
}

/// y of the edge at x, when it spans x.
std::optional<double> height_at(Edge edge, double x) {
    const auto [a, b] = edge;
    if ((a.x > x) == (b.x > x)) return std::nullopt;
    return a.y + (x - a.x) / (b.x - a.x) * (b.y - a.y);
}

/// The x at which the state of the strip can change: corners in it, and edges entering it.
std::vector<double> break_points(std::span<const Vec2> outline, double low_y, double high_y) {
    std::vector<double> xs;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Edge edge = edge_of(outline, i);
        if (edge.a.y >= low_y && edge.a.y <= high_y) xs.push_back(edge.a.x);
        for (const double y : {low_y, high_y}) {
            if (const auto x = crossing_x(edge, y)) xs.push_back(*x);
        }
    }
    std::sort(xs.begin(), xs.end());
    return xs;
}

/// Whether the upright segment at x lies inside; x is not a break point.
bool is_strip_inside(std::span<const Vec2> outline, double x, double low_y, double high_y) {
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const auto y = height_at(edge_of(outline, i), x);
        if (y && *y > low_y && *y < high_y) return false;
    }
    return is_inside(outline, {x, 0.5 * (low_y + high_y)});
}

/// How far apart the shadows of both outlines on an axis are pushed into each other.
double overlap_along(std::span<const Vec2> a, std::span<const Vec2> b, Vec2 axis) {
    const auto shadow = [axis](std::span<const Vec2> points) {
        Interval interval{std::numeric_limits<double>::infinity(),
                          -std::numeric_limits<double>::infinity()};
        for (const Vec2 point : points) {
            interval.from = std::min(interval.from, dot(point, axis));
            interval.to = std::max(interval.to, dot(point, axis));
        }
        return interval;
    };
    const Interval of_a = shadow(a);
    const Interval of_b = shadow(b);
    return std::min(of_a.to - of_b.from, of_b.to - of_a.from);
}

/// Where a point stands to the line a-b: 1 left, -1 right, 0 within `touch_m` of it.
int side_of(Edge edge, Vec2 point) {
    constexpr double touch_m = 1e-9;
    const Vec2 direction = edge.b - edge.a;
    const double offset = cross(direction, point - edge.a);
    const double limit = touch_m * length(direction);
    if (offset > limit) return 1;
    return offset < -limit ? -1 : 0;
}

bool is_between(Edge edge, Vec2 point) {
    return dot(point - edge.a, point - edge.b) <= 0.0;
}

/// True when the segments share any point.
bool do_meet(Edge p, Edge q) {
    const int qa = side_of(p, q.a);
    const int qb = side_of(p, q.b);
    const int pa = side_of(q, p.a);
    const int pb = side_of(q, p.b);
    if (qa * qb < 0 && pa * pb < 0) return true;
    return (qa == 0 && is_between(p, q.a)) || (qb == 0 && is_between(p, q.b)) ||
           (pa == 0 && is_between(q, p.a)) || (pb == 0 && is_between(q, p.b));
}

/// Two edges that share a corner and fold back on each other.
bool do_fold(Edge before, Edge after) {
    const Vec2 in = before.b - before.a;
    const Vec2 out = after.b - after.a;
    return side_of(before, after.b) == 0 && dot(in, out) < 0.0;
}

}  // namespace

std::vector<Interval> stretches_inside(std::span<const Vec2> outline, double low_y, double high_y,
                                       double shortest) {
    const std::vector<double> xs = break_points(outline, low_y, high_y);
    std::vector<Interval> stretches;
    for (std::size_t i = 0; i + 1 < xs.size(); ++i) {
        if (!(xs[i + 1] > xs[i])) continue;
        if (!is_strip_inside(outline, 0.5 * (xs[i] + xs[i + 1]), low_y, high_y)) continue;
        if (!stretches.empty() && !(stretches.back().to < xs[i])) {
            stretches.back().to = xs[i + 1];
        } else {
            stretches.push_back({xs[i], xs[i + 1]});
        }
    }
    std::erase_if(stretches, [shortest](Interval s) { return s.to - s.from < shortest; });
    return stretches;
}

bool is_inside(std::span<const Vec2> outline, Vec2 point) {
    bool inside = false;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const auto x = crossing_x(edge_of(outline, i), point.y);
        if (x && *x > point.x) inside = !inside;
    }
    return inside;
}

std::optional<std::pair<std::size_t, std::size_t>> self_crossing(std::span<const Vec2> outline) {
    const std::size_t count = outline.size();
    for (std::size_t i = 0; i < count; ++i) {
        for (std::size_t j = i + 1; j < count; ++j) {
            const Edge p = edge_of(outline, i);
            const Edge q = edge_of(outline, j);
            const bool follows = j == i + 1;
            const bool leads = (j + 1) % count == i;
            const bool crosses = follows ? do_fold(p, q) : leads ? do_fold(q, p) : do_meet(p, q);
            if (crosses) return std::pair(i, j);
        }
    }
    return std::nullopt;
}

double signed_area(std::span<const Vec2> outline) {
    double twice = 0.0;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Edge edge = edge_of(outline, i);
        twice += cross(edge.a, edge.b);
    }
    return 0.5 * twice;
}

double overlap_depth(std::span<const Vec2> a, std::span<const Vec2> b) {
    double depth = std::numeric_limits<double>::infinity();
    for (const auto outline : {a, b}) {
        for (std::size_t i = 0; i < outline.size(); ++i) {
            const Edge edge = edge_of(outline, i);
            const Vec2 direction = edge.b - edge.a;
            const double size = length(direction);
            if (!(size > 0.0)) continue;
            const Vec2 normal{direction.y / size, -direction.x / size};
            depth = std::min(depth, overlap_along(a, b, normal));
            if (depth <= 0.0) return 0.0;
        }
    }
    return depth;
}

std::vector<Vec2> rectangle_about(Vec2 centre, Vec2 along, double length_m, double depth_m) {
    const Vec2 half_along = (0.5 * length_m) * along;
    const Vec2 half_across = (0.5 * depth_m) * Vec2{-along.y, along.x};
    return {centre - half_along - half_across, centre + half_along - half_across,
            centre + half_along + half_across, centre - half_along + half_across};
}

std::vector<Vec2> convex_hull(std::vector<Vec2> points) {
    const auto before = [](Vec2 a, Vec2 b) { return a.x < b.x || (!(b.x < a.x) && a.y < b.y); };
    std::sort(points.begin(), points.end(), before);
    points.erase(std::unique(points.begin(), points.end()), points.end());
    if (points.size() < 3) return points;
    std::vector<Vec2> hull;
    const auto add = [&hull](Vec2 point, std::size_t floor) {
        while (hull.size() >= floor + 2 &&
               cross(hull.back() - hull[hull.size() - 2], point - hull.back()) <= 0.0) {
            hull.pop_back();
        }
        hull.push_back(point);
    };
    for (const Vec2 point : points) add(point, 0);
    const std::size_t lower = hull.size() - 1;
    for (auto it = points.rbegin() + 1; it != points.rend(); ++it) add(*it, lower);
    hull.pop_back();
    return hull;
}

}  // namespace sunfleck::scene
