#pragma once

#include "sunfleck/base/vec3.h"

#include <optional>
#include <span>
#include <utility>
#include <vector>

/// Plane questions about an outline: a closed line of straight edges, last corner to first.
namespace sunfleck::scene {

struct Interval {
    double from = 0.0;
    double to = 0.0;
};

/// The stretches of x over which every point (x, y) with y between `low_y` and `high_y` lies
/// inside the outline (which must not cross itself), ascending; at least `shortest` long.
[[nodiscard]] std::vector<Interval> stretches_inside(std::span<const Vec2> outline, double low_y,
                                                     double high_y, double shortest);

/// True inside; points on the edge may go either way.
[[nodiscard]] bool is_inside(std::span<const Vec2> outline, Vec2 point);

/// The two edges (by their first corner) that cross or touch where they should not, if any.
[[nodiscard]] std::optional<std::pair<std::size_t, std::size_t>> self_crossing(
    std::span<const Vec2> outline);

/// Signed area: positive when the corners run counter-clockwise.
[[nodiscard]] double signed_area(std::span<const Vec2> outline);

/// How deep two convex outlines reach into each other: the least shift that parts them, metres;
/// 0 when they do not overlap. Separating-axis test over the edge normals of both.
[[nodiscard]] double overlap_depth(std::span<const Vec2> a, std::span<const Vec2> b);

/// The corners of a rectangle, counter-clockwise, about a centre; `along` is a unit vector.
[[nodiscard]] std::vector<Vec2> rectangle_about(Vec2 centre, Vec2 along, double length_m,
                                                double depth_m);

/// The smallest convex outline about the points, counter-clockwise (Andrew's monotone chain).
[[nodiscard]] std::vector<Vec2> convex_hull(std::vector<Vec2> points);

}  // namespace sunfleck::scene
