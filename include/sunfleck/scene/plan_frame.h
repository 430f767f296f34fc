#pragma once

#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/scene/scene.h"

namespace sunfleck::scene {

/// Turns the user's plan to the world (x east, y north, z up) and back. Both share the origin;
/// plan distances are horizontal distances.
class PlanFrame {
  public:
    explicit PlanFrame(const Scene& scene);
    /// East and north of a plan point (z not touched).
    [[nodiscard]] Vec2 to_world(Vec2 plan) const;
    [[nodiscard]] Vec2 to_plan(Vec2 world) const;
    /// z of the ground plane under a plan point.
    [[nodiscard]] double ground_z(Vec2 plan) const;
    /// Unit vector in the plan that points along a true bearing.
    [[nodiscard]] Vec2 plan_direction(Angle true_bearing) const;
    [[nodiscard]] Vec3 world_point(Vec2 plan, double z_m) const;
    /// z of a height given above the ground under `anchor`, or absolute.
    [[nodiscard]] double z_of(Height height, Vec2 anchor) const;

  private:
    double cos_up_ = 1.0;
    double sin_up_ = 0.0;
    Vec2 downhill_world_;
    double fall_per_m_ = 0.0;
};

}  // namespace sunfleck::scene
