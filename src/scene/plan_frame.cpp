#include "sunfleck/scene/plan_frame.h"

namespace sunfleck::scene {
namespace {

/// Unit vector (east, north) along a true bearing. Quarter turns come out exact, so that a plan
/// turned by 90 degrees keeps its walls in line.
Vec2 towards(Angle bearing) {
    const auto snapped = [](double value) { return std::abs(value) < 1e-15 ? 0.0 : value; };
    return {snapped(sin(bearing)), snapped(cos(bearing))};
}

}  // namespace

PlanFrame::PlanFrame(const Scene& scene)
    : downhill_world_(towards(scene.ground.downhill_bearing)),
      fall_per_m_(tan(scene.ground.slope)) {
    const Vec2 up = towards(scene.site.plan_up_bearing);
    sin_up_ = up.x;
    cos_up_ = up.y;
}

Vec2 PlanFrame::to_world(Vec2 plan) const {
    // The plan's y axis lies along (sin, cos) of its bearing, its x axis a quarter turn clockwise.
    return {plan.x * cos_up_ + plan.y * sin_up_, plan.y * cos_up_ - plan.x * sin_up_};
}

Vec2 PlanFrame::to_plan(Vec2 world) const {
    return {world.x * cos_up_ - world.y * sin_up_, world.x * sin_up_ + world.y * cos_up_};
}

double PlanFrame::ground_z(Vec2 plan) const {
    return 0.0 - fall_per_m_ * dot(downhill_world_, to_world(plan));
}

Vec2 PlanFrame::plan_direction(Angle true_bearing) const {
    return to_plan(towards(true_bearing));
}

Vec3 PlanFrame::world_point(Vec2 plan, double z_m) const {
    const Vec2 world = to_world(plan);
    return {world.x, world.y, z_m};
}

double PlanFrame::z_of(Height height, Vec2 anchor) const {
    return height.is_absolute ? height.value_m : ground_z(anchor) + height.value_m;
}

}  // namespace sunfleck::scene
