#include "sunfleck/geometry/triangle_tree.h"

#include "geometry/ray_box.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <numeric>

namespace sunfleck::geometry {
namespace {

constexpr std::uint32_t leaf_size = 4;
constexpr double least_distance_m = 1e-6;

Vec3 smaller(Vec3 a, Vec3 b) {
    return {std::min(a.x, b.x), std::min(a.y, b.y), std::min(a.z, b.z)};
}
Vec3 larger(Vec3 a, Vec3 b) {
    return {std::max(a.x, b.x), std::max(a.y, b.y), std::max(a.z, b.z)};
}
Vec3 corner_sum(const Triangle& t) {
    return t.a + t.b + t.c;
}
double along_axis(Vec3 v, int axis) {
    return axis == 0 ? v.x : axis == 1 ? v.y : v.z;
}
int longest_axis(Vec3 extent) {
    if (extent.x >= extent.y && extent.x >= extent.z) return 0;
    return extent.y >= extent.z ? 1 : 2;
}

/// Builds the nodes over an order of triangle numbers, halving at the median of the corners' sum.
class TreeBuilder {
  public:
    explicit TreeBuilder(const std::vector<Triangle>& triangles)
        : triangles_(triangles), order_(triangles.size()) {
        std::iota(order_.begin(), order_.end(), std::uint32_t{0});
        nodes_.resize(1);
        fill(0, 0, static_cast<std::uint32_t>(triangles.size()));
    }
    [[nodiscard]] const std::vector<std::uint32_t>& order() const { return order_; }
    [[nodiscard]] std::vector<TriangleTree::Node> take_nodes() { return std::move(nodes_); }

  private:
    void fill(std::size_t node, std::uint32_t first, std::uint32_t count) {
        const Vec3 extent = set_box(node, first, count);
        if (count <= leaf_size) {
            nodes_[node].first = first;
            nodes_[node].count = count;
            return;
        }
        const std::uint32_t half = count / 2;
        split_at(first, half, count, longest_axis(extent));
        const auto children = static_cast<std::uint32_t>(nodes_.size());
        nodes_[node].first = children;
        nodes_.resize(nodes_.size() + 2);
        fill(children, first, half);
        fill(children + 1, first + half, count - half);
    }

    /// Sets the node's box; gives the extent of the corners' sums.
    Vec3 set_box(std::size_t node, std::uint32_t first, std::uint32_t count) {
        Vec3 low = triangles_[order_[first]].a;
        Vec3 high = low;
        Vec3 low_sum = corner_sum(triangles_[order_[first]]);
        Vec3 high_sum = low_sum;
        for (std::uint32_t i = first; i < first + count; ++i) {
            const Triangle& t = triangles_[order_[i]];
            low = smaller(low, smaller(t.a, smaller(t.b, t.c)));
            high = larger(high, larger(t.a, larger(t.b, t.c)));
            low_sum = smaller(low_sum, corner_sum(t));
            high_sum = larger(high_sum, corner_sum(t));
        }
        nodes_[node].low = low;
        nodes_[node].high = high;
        return high_sum - low_sum;
    }

    void split_at(std::uint32_t first, std::uint32_t half, std::uint32_t count, int axis) {
        const auto begin = order_.begin() + first;
        std::nth_element(begin, begin + half, begin + count,
                         [&](std::uint32_t left, std::uint32_t right) {
                             const double l = along_axis(corner_sum(triangles_[left]), axis);
                             const double r = along_axis(corner_sum(triangles_[right]), axis);
                             if (l < r || r < l) return l < r;
                             return left < right;
                         });
    }

    const std::vector<Triangle>& triangles_;
    std::vector<std::uint32_t> order_;
    std::vector<TriangleTree::Node> nodes_;
};

/// Distance along the ray at which it crosses the triangle; negative when it does not.
///
/// The three signed volumes of ray and edge come out with exactly opposite signs for the two
/// triangles of an edge, so that a ray near it crosses at least one of them.
double crossing_distance(const Triangle& t, Vec3 origin, Vec3 direction) {
    const Vec3 a = t.a - origin;
    const Vec3 b = t.b - origin;
    const Vec3 c = t.c - origin;
    const double u = dot(direction, cross(b, c));
    const double v = dot(direction, cross(c, a));
    const double w = dot(direction, cross(a, b));
    const bool is_inside = (u >= 0.0 && v >= 0.0 && w >= 0.0) || (u <= 0.0 && v <= 0.0 && w <= 0.0);
    const double volume = u + v + w;
    if (!is_inside || !(std::abs(volume) > 0.0)) return -1.0;
    const double distance = dot(direction, (1.0 / volume) * (u * a + v * b + w * c));
    return std::isfinite(distance) ? distance : -1.0;
}

/// Crossings met so far, each place once.
class CrossingCount {
  public:
    explicit CrossingCount(int most) : most_(std::min(most, capacity)) {}
    void add(double distance) {
        if (!(distance > least_distance_m)) return;
        for (int i = 0; i < count_; ++i) {
            if (std::abs(distance - at_[static_cast<std::size_t>(i)]) < least_distance_m) return;
        }
        at_[static_cast<std::size_t>(count_++)] = distance;
    }
    [[nodiscard]] bool is_full() const { return count_ >= most_; }
    [[nodiscard]] int count() const { return count_; }

  private:
    static constexpr int capacity = 32;
    std::array<double, capacity> at_{};
    int most_;
    int count_ = 0;
};

void add_crossings(const std::vector<Triangle>& triangles, std::size_t first, std::size_t count,
                   Vec3 origin, Vec3 direction, CrossingCount& crossings) {
    for (std::size_t i = first; i < first + count && !crossings.is_full(); ++i) {
        crossings.add(crossing_distance(triangles[i], origin, direction));
    }
}

}  // namespace

TriangleTree build_triangle_tree(std::vector<Triangle>& triangles) {
    if (triangles.empty()) return {};
    TreeBuilder builder(triangles);
    std::vector<Triangle> ordered;
    ordered.reserve(triangles.size());
    for (const std::uint32_t i : builder.order()) ordered.push_back(triangles[i]);
    triangles = std::move(ordered);
    return {builder.take_nodes()};
}

int count_crossings(const std::vector<Triangle>& triangles, const TriangleTree& tree, Vec3 origin,
                    Vec3 direction, int most) {
    CrossingCount crossings(most);
    if (tree.nodes.empty()) {
        add_crossings(triangles, 0, triangles.size(), origin, direction, crossings);
        return crossings.count();
    }
    // Halving 2^32 triangles down to single ones leaves at most 33 open nodes.
    std::array<std::uint32_t, 64> open{};
    std::size_t open_count = 1;
    while (open_count > 0 && !crossings.is_full()) {
        const TriangleTree::Node& node = tree.nodes[open[--open_count]];
        if (!may_meet_box(node.low, node.high, origin, direction)) continue;
        if (node.count > 0) {
            add_crossings(triangles, node.first, node.count, origin, direction, crossings);
        } else {
            open[open_count++] = node.first + 1;
            open[open_count++] = node.first;
        }
    }
    return crossings.count();
}

}  // namespace sunfleck::geometry
