#pragma once

#include "geometry/flat_outline.h"
#include "geometry/polyhedron.h"
#include "sunfleck/base/units.h"
#include "sunfleck/scene/plan_frame.h"

#include <cmath>
#include <optional>
#include <vector>

namespace sunfleck::geometry {

/// The scene's frame and its ground, in world coordinates.
class Terrain {
  public:
    explicit Terrain(const scene::Scene& scene) : frame_(scene) {
        const double z = frame_.ground_z(frame_.to_plan({0.0, 0.0}));
        ground_ = {z,
                   {frame_.ground_z(frame_.to_plan({1.0, 0.0})) - z,
                    frame_.ground_z(frame_.to_plan({0.0, 1.0})) - z}};
    }
    [[nodiscard]] const scene::PlanFrame& frame() const { return frame_; }
    [[nodiscard]] HeightPlane ground() const { return ground_; }
    [[nodiscard]] Vec2 world(Vec2 plan) const { return frame_.to_world(plan); }
    [[nodiscard]] Outline world(const std::vector<Vec2>& plan) const {
        Outline outline;
        outline.reserve(plan.size());
        for (const Vec2 p : plan) outline.push_back(world(p));
        return outline;
    }
    /// Unit vector along a true bearing; quarter turns come out exact.
    [[nodiscard]] Vec2 towards(Angle true_bearing) const {
        return frame_.to_world(frame_.plan_direction(true_bearing));
    }
    /// z of the ground under `anchor` (world), or the absolute level that the object states.
    [[nodiscard]] double base_z(Vec2 anchor, std::optional<double> stated) const {
        return stated ? *stated : ground_(anchor);
    }
    /// What an object stands on: the ground, or the level that it states.
    [[nodiscard]] HeightPlane foot(std::optional<double> stated) const {
        return stated ? level(*stated) : ground_;
    }

  private:
    scene::PlanFrame frame_;
    HeightPlane ground_;
};

}  // namespace sunfleck::geometry
