#pragma once

#include "sunfleck/base/vec3.h"

#include <optional>
#include <vector>

namespace sunfleck::geometry {

/// A simple polygon in world x and y, counter-clockwise, without repeating its first corner.
using Outline = std::vector<Vec2>;

/// Positive when counter-clockwise.
[[nodiscard]] double signed_area(const Outline& outline);

/// The part of a convex outline where dot(normal, p) <= offset; empty when there is none.
[[nodiscard]] Outline clipped(const Outline& convex, Vec2 normal, double offset);

/// Convex hull, counter-clockwise; points closer than 1 nanometre to an edge may be left out.
[[nodiscard]] Outline convex_hull(std::vector<Vec2> points);

/// A rectangle with one side from `corner` along the unit vector `along`, to the left of it.
[[nodiscard]] Outline rectangle(Vec2 corner, Vec2 along, double length_m, double depth_m);

/// The outline moved outward by `distance_m`; corners mitred, or cut off square where the mitre
/// would stand out by more than twice the distance.
[[nodiscard]] Outline widened(const Outline& outline, double distance_m);

/// Convex outlines that cover the outline without overlap; nothing when it crosses or touches
/// itself or has no area. A convex outline is its own only part.
[[nodiscard]] std::optional<std::vector<Outline>> convex_parts(const Outline& outline);

/// Quarter turn to the left.
[[nodiscard]] constexpr Vec2 left_of(Vec2 v) {
    return {-v.y, v.x};
}

}  // namespace sunfleck::geometry
