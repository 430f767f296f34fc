#include "geometry/flat_outline.h"

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Partition_traits_2.h>
#include <CGAL/Polygon_2.h>
#include <CGAL/partition_2.h>

#include <list>

namespace sunfleck::geometry {
namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Traits = CGAL::Partition_traits_2<Kernel>;
using Polygon = CGAL::Polygon_2<Kernel>;

bool is_on_straight_way(Vec2 before, Vec2 p, Vec2 after) {
    return CGAL::are_strictly_ordered_along_line(Kernel::Point_2(before.x, before.y),
                                                 Kernel::Point_2(p.x, p.y),
                                                 Kernel::Point_2(after.x, after.y));
}

/// The outline without corners that repeat or lie on the line of their neighbours.
Polygon essential_corners(const Outline& outline) {
    Outline kept;
    for (const Vec2 p : outline) {
        if (kept.empty() || !(p == kept.back())) kept.push_back(p);
    }
    while (kept.size() > 1 && kept.front() == kept.back()) kept.pop_back();
    for (std::size_t i = 0; i < kept.size() && kept.size() > 3;) {
        const std::size_t count = kept.size();
        if (is_on_straight_way(kept[(i + count - 1) % count], kept[i], kept[(i + 1) % count])) {
            kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(i));
        } else {
            ++i;
        }
    }
    Polygon polygon;
    for (const Vec2 p : kept) polygon.push_back({p.x, p.y});
    return polygon;
}

template <typename Corners>
Outline outline_of(const Corners& corners) {
    Outline outline;
    for (const auto& p : corners) outline.push_back({p.x(), p.y()});
    return outline;
}

}  // namespace

std::optional<std::vector<Outline>> convex_parts(const Outline& outline) {
    if (outline.size() < 3) return std::nullopt;
    Polygon polygon = essential_corners(outline);
    if (polygon.size() < 3 || !polygon.is_simple()) return std::nullopt;
    if (polygon.is_clockwise_oriented()) polygon.reverse_orientation();
    if (!polygon.is_counterclockwise_oriented()) return std::nullopt;
    if (polygon.is_convex()) {
        return std::vector<Outline>{outline_of(polygon.container())};
    }
    std::list<Traits::Polygon_2> parts;
    CGAL::approx_convex_partition_2(polygon.vertices_begin(), polygon.vertices_end(),
                                    std::back_inserter(parts), Traits());
    std::vector<Outline> result;
    for (const auto& part : parts) result.push_back(outline_of(part.container()));
    return result;
}

}  // namespace sunfleck::geometry
