#pragma once

#include "sunfleck/scene/plan_frame.h"
#include "sunfleck/scene/scene.h"

#include <cstdint>
#include <random>
#include <string>

/// Small scenes for tests, made in memory, and seeded numbers that are the same everywhere.
namespace sunfleck::scene {

/// Uniform numbers from the generator's own bits (std distributions differ between libraries).
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : bits_(seed) {}
    double between(double low, double high) {
        const double share = static_cast<double>(bits_() >> 11U) * 0x1.0p-53;
        return low + (high - low) * share;
    }
    /// A whole number from `low` to `high`, both possible.
    int whole(int low, int high) {
        const auto choices = static_cast<std::uint64_t>(high - low + 1);
        return low + static_cast<int>(bits_() % choices);
    }

  private:
    std::mt19937_64 bits_;
};

inline Scene scene_at(double latitude_deg, double longitude_deg, std::string zone) {
    Scene scene;
    scene.site.place = {Latitude::degrees(latitude_deg), Longitude::degrees(longitude_deg), 0.0};
    scene.site.time_zone = std::move(zone);
    return scene;
}

/// A rectangular bench with one tier per given height, each `depth_m` deep, one behind another.
inline Bench rectangle_bench(const Scene& scene, const std::string& id, Vec2 corner,
                             double bearing_deg, double length_m, double depth_m,
                             std::vector<double> heights_m = {0.8}) {
    Bench bench;
    bench.label = {id, "Bench " + id, ""};
    bench.bearing = Angle::degrees(bearing_deg);
    bench.length_m = length_m;
    bench.depth_m = depth_m * static_cast<double>(heights_m.size());
    for (const double height_m : heights_m) {
        const double set_back_m = depth_m * static_cast<double>(bench.tiers.size());
        bench.tiers.push_back({.height_m = height_m, .set_back_m = set_back_m, .depth_m = depth_m});
    }
    const Vec2 along = PlanFrame(scene).plan_direction(bench.bearing);
    const Vec2 across{-along.y, along.x};
    bench.outline = {corner, corner + length_m * along,
                     corner + length_m * along + bench.depth_m * across,
                     corner + bench.depth_m * across};
    return bench;
}

/// A bench of any outline (counter-clockwise) with one closed tier over all of it.
inline Bench outline_bench(const Scene& scene, const std::string& id, std::vector<Vec2> outline) {
    Bench bench;
    bench.label = {id, "Bench " + id, ""};
    bench.is_rectangle = false;
    const Vec2 front = outline[1] - outline[0];
    const Vec2 world = PlanFrame(scene).to_world(front);
    bench.bearing = Angle::radians(std::atan2(world.x, world.y));
    bench.length_m = length(front);
    bench.outline = std::move(outline);
    bench.tiers = {{.height_m = 0.8}};
    return bench;
}

}  // namespace sunfleck::scene
