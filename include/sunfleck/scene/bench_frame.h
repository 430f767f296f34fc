#pragma once

#include "sunfleck/base/vec3.h"
#include "sunfleck/scene/plan_frame.h"
#include "sunfleck/scene/scene.h"

namespace sunfleck::scene {

/// A bench's own measures: metres along its front edge from the first corner, and metres from
/// the front edge towards the back. x of a point is the first, y the second.
class BenchFrame {
  public:
    BenchFrame(const PlanFrame& frame, const Bench& bench);
    [[nodiscard]] Vec2 to_plan(Vec2 along_and_from_front) const;
    [[nodiscard]] Vec2 to_bench(Vec2 plan) const;
    /// Unit vector in the plan along the front edge; the bench lies to its left.
    [[nodiscard]] Vec2 along() const { return along_; }
    /// Unit vector in the plan from the front edge to the back.
    [[nodiscard]] Vec2 across() const { return {-along_.y, along_.x}; }
    /// z of the ground that the bench's heights are measured from.
    [[nodiscard]] double base_z_m() const { return base_z_m_; }

  private:
    Vec2 corner_;
    Vec2 along_;
    double base_z_m_ = 0.0;
};

/// The z of the ground that a thing's heights start from: its own absolute level, when the file
/// gives one, else the ground plane under its anchor.
[[nodiscard]] double base_z_of(const PlanFrame& frame, std::optional<double> base_z_m, Vec2 anchor);

/// How far a tier reaches from the bench's front edge: [set back, set back + depth], metres.
struct Strip {
    double front_m = 0.0;
    double back_m = 0.0;
};
/// A tier without a depth of its own reaches to the back of the bench.
[[nodiscard]] Strip strip_of(const BenchFrame& frame, const Bench& bench, const Tier& tier);

}  // namespace sunfleck::scene
