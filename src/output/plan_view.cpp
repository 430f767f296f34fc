#include "sunfleck/output/plan_view.h"

#include "sunfleck/base/require.h"
#include "sunfleck/scene/plan_frame.h"

#include <algorithm>
#include <optional>

namespace sunfleck::output {

namespace {

constexpr double margin_m = 0.6;        // around what is shown
constexpr double surroundings_m = 1.8;  // of buildings and trees around the benches
constexpr double edges_m = 5.0;         // of walls and fences, which bound the garden
constexpr double least_side_m = 3.0;    // of the part shown

/// A box that grows point by point.
class GrowingBox {
  public:
    void add(Vec2 point) {
        if (!box_) box_ = PlanBox{point, point};
        box_->low = {std::min(box_->low.x, point.x), std::min(box_->low.y, point.y)};
        box_->high = {std::max(box_->high.x, point.x), std::max(box_->high.y, point.y)};
    }
    void add(std::span<const Vec2> points) {
        for (const Vec2& point : points) add(point);
    }
    void add_around(Vec2 centre, double radius) {
        add(centre + Vec2{-radius, -radius});
        add(centre + Vec2{radius, radius});
    }
    [[nodiscard]] const std::optional<PlanBox>& box() const { return box_; }

  private:
    std::optional<PlanBox> box_;
};

GrowingBox box_of_benches(const scene::Scene& scene) {
    const scene::PlanFrame frame(scene);
    GrowingBox box;
    for (const auto& bench : scene.benches) box.add(bench.outline);
    for (const auto& stand : scene.post_stands) {
        box.add(stand_outline(stand, frame.plan_direction(stand.bearing)));
    }
    for (const auto& cloth : scene.cloths) {
        for (const auto& corner : cloth.corners) box.add(corner.position);
    }
    for (const auto& panel : scene.lath_panels) {
        box.add(panel_outline(panel, frame.plan_direction(panel.bearing)));
    }
    return box;
}

GrowingBox box_of_walls(const scene::Scene& scene) {
    GrowingBox box;
    for (const auto& wall : scene.walls) box.add(wall.line);
    return box;
}

GrowingBox box_of_surroundings(const scene::Scene& scene) {
    GrowingBox box;
    for (const auto& building : scene.buildings) box.add(building.outline);
    for (const auto& tree : scene.trees) {
        box.add_around(tree.position,
                       0.5 * std::max(tree.crown_width_m, tree.crown_width_across_m));
    }
    for (const auto& mesh : scene.meshes) box.add_around(mesh.position, 1.0);
    return box;
}

PlanBox grown(PlanBox box, double by_m) {
    return {box.low + Vec2{-by_m, -by_m}, box.high + Vec2{by_m, by_m}};
}

PlanBox united(const PlanBox& a, const PlanBox& b) {
    return {{std::min(a.low.x, b.low.x), std::min(a.low.y, b.low.y)},
            {std::max(a.high.x, b.high.x), std::max(a.high.y, b.high.y)}};
}

PlanBox common(const PlanBox& a, const PlanBox& b) {
    return {{std::max(a.low.x, b.low.x), std::max(a.low.y, b.low.y)},
            {std::min(a.high.x, b.high.x), std::min(a.high.y, b.high.y)}};
}

PlanBox with_least_sides(PlanBox box) {
    const Vec2 lack{std::max(0.0, least_side_m - box.width()),
                    std::max(0.0, least_side_m - box.height())};
    return {box.low - 0.5 * lack, box.high + 0.5 * lack};
}

}  // namespace

PlanBox shown_part(const scene::Scene& scene) {
    const auto benches = box_of_benches(scene).box();
    const auto walls = box_of_walls(scene).box();
    const auto others = box_of_surroundings(scene).box();
    if (!benches) {
        if (!walls && !others) return grown({}, 0.5 * least_side_m);
        const PlanBox all = walls && others ? united(*walls, *others) : walls ? *walls : *others;
        return grown(with_least_sides(all), margin_m);
    }
    PlanBox part = *benches;
    const auto take_in = [&](const std::optional<PlanBox>& box, double reach_m) {
        if (!box) return;
        const PlanBox near = common(*box, grown(*benches, reach_m));
        // Two boxes apart have no common part: its low corner lies beyond its high one.
        if (near.width() >= 0.0 && near.height() >= 0.0) part = united(part, near);
    };
    take_in(walls, edges_m);
    take_in(others, surroundings_m);
    return grown(with_least_sides(part), margin_m);
}

PlanView::PlanView(const PlanBox& part, const SheetBox& panel)
    : panel_(panel),
      middle_(0.5 * (part.low + part.high)),
      pixels_per_m_(std::min(panel.width() / part.width(), panel.height() / part.height())) {
    SUNFLECK_REQUIRE(part.width() > 0.0 && part.height() > 0.0, "nothing is shown");
}

SheetPoint PlanView::at(Vec2 plan) const {
    const SheetPoint centre = panel_.centre();
    return {centre.x + pixels_per_m_ * (plan.x - middle_.x),
            centre.y - pixels_per_m_ * (plan.y - middle_.y)};
}

std::vector<SheetPoint> PlanView::at(std::span<const Vec2> plan) const {
    std::vector<SheetPoint> points;
    points.reserve(plan.size());
    for (const Vec2& point : plan) points.push_back(at(point));
    return points;
}

std::vector<Vec2> plan_rectangle(Vec2 start, Vec2 along, double length_m, double depth_m) {
    const Vec2 side = length_m * along;
    const Vec2 back = depth_m * left_of(along);
    return {start, start + side, start + side + back, start + back};
}

std::vector<Vec2> stand_outline(const scene::PostStand& stand, Vec2 along) {
    const double side_m = stand.top_side_m;
    const Vec2 start = stand.position - 0.5 * side_m * (along + left_of(along));
    return plan_rectangle(start, along, side_m, side_m);
}

std::vector<Vec2> tier_outline(const scene::BenchFrame& frame, const scene::Bench& bench,
                               const scene::Tier& tier) {
    if (!bench.is_rectangle) return bench.outline;
    const scene::Strip strip = scene::strip_of(frame, bench, tier);
    return plan_rectangle(frame.to_plan({0.0, strip.front_m}), frame.along(), bench.length_m,
                          strip.back_m - strip.front_m);
}

std::vector<Vec2> panel_outline(const scene::LathPanel& panel, Vec2 along) {
    return plan_rectangle(panel.corner, along, panel.length_m, panel.width_m * cos(panel.tilt));
}

}  // namespace sunfleck::output
