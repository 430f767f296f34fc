#include "sunfleck/scene/bench_frame.h"

#include "sunfleck/base/require.h"

#include <algorithm>

namespace sunfleck::scene {
namespace {

Vec2 anchor_of(const Bench& bench) {
    SUNFLECK_REQUIRE(!bench.outline.empty(), "a bench has an outline");
    return bench.outline.front();
}

}  // namespace

BenchFrame::BenchFrame(const PlanFrame& frame, const Bench& bench)
    : corner_(anchor_of(bench)),
      along_(frame.plan_direction(bench.bearing)),
      base_z_m_(base_z_of(frame, bench.base_z_m, corner_)) {}

Vec2 BenchFrame::to_plan(Vec2 along_and_from_front) const {
    return corner_ + along_and_from_front.x * along_ + along_and_from_front.y * across();
}

Vec2 BenchFrame::to_bench(Vec2 plan) const {
    const Vec2 offset = plan - corner_;
    return {dot(offset, along_), dot(offset, across())};
}

double base_z_of(const PlanFrame& frame, std::optional<double> base_z_m, Vec2 anchor) {
    return base_z_m ? *base_z_m : frame.ground_z(anchor);
}

Strip strip_of(const BenchFrame& frame, const Bench& bench, const Tier& tier) {
    if (tier.depth_m > 0.0) return {tier.set_back_m, tier.set_back_m + tier.depth_m};
    double back_m = bench.depth_m;
    if (!bench.is_rectangle) {
        for (const Vec2 corner : bench.outline) {
            back_m = std::max(back_m, frame.to_bench(corner).y);
        }
    }
    return {tier.set_back_m, std::max(tier.set_back_m, back_m)};
}

}  // namespace sunfleck::scene
