#pragma once

#include "sunfleck/base/vec3.h"
#include "sunfleck/output/path.h"
#include "sunfleck/scene/bench_frame.h"
#include "sunfleck/scene/scene.h"

#include <span>
#include <vector>

namespace sunfleck::output {

/// An upright rectangle of the plan, metres.
struct PlanBox {
    Vec2 low;
    Vec2 high;
    [[nodiscard]] double width() const { return high.x - low.x; }
    [[nodiscard]] double height() const { return high.y - low.y; }
};

/// What a picture of the garden should show: benches, stands, nets and laths whole, and of all
/// else what lies near them. With none of these, everything.
[[nodiscard]] PlanBox shown_part(const scene::Scene& scene);

/// Turns plan metres to the sheet's pixels: the part shown fills the panel, whatever is left over
/// shows more of the surroundings.
class PlanView {
  public:
    PlanView(const PlanBox& part, const SheetBox& panel);
    [[nodiscard]] SheetPoint at(Vec2 plan) const;
    [[nodiscard]] std::vector<SheetPoint> at(std::span<const Vec2> plan) const;
    [[nodiscard]] double pixels(double length_m) const { return pixels_per_m_ * length_m; }
    [[nodiscard]] double pixels_per_m() const { return pixels_per_m_; }
    [[nodiscard]] const SheetBox& panel() const { return panel_; }

  private:
    SheetBox panel_;
    Vec2 middle_;
    double pixels_per_m_ = 1.0;
};

/// Corners of a rectangle: `start`, then `length` along the unit vector, then `depth` to its left.
[[nodiscard]] std::vector<Vec2> plan_rectangle(Vec2 start, Vec2 along, double length_m,
                                               double depth_m);
/// To the left of a direction.
[[nodiscard]] constexpr Vec2 left_of(Vec2 along) {
    return {-along.y, along.x};
}
/// The outline of a post stand's top.
[[nodiscard]] std::vector<Vec2> stand_outline(const scene::PostStand& stand, Vec2 along);
/// One tier's strip of a bench; the whole outline where the bench is no rectangle.
[[nodiscard]] std::vector<Vec2> tier_outline(const scene::BenchFrame& frame,
                                             const scene::Bench& bench, const scene::Tier& tier);
/// The outline of a panel of laths from above.
[[nodiscard]] std::vector<Vec2> panel_outline(const scene::LathPanel& panel, Vec2 along);

}  // namespace sunfleck::output
