#pragma once

#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/exposure/spot_sun.h"
#include "sunfleck/geometry/garden.h"
#include "sunfleck/geometry/ray_fan.h"
#include "sunfleck/rays/sight.h"

#include <cstddef>
#include <span>
#include <vector>

namespace sunfleck::exposure {

/// Points spread evenly over a disk of radius 1, each standing for the same area: pairs on a
/// sunflower spiral and opposite it, so that their middle is the disk's own.
class DiskPoints {
  public:
    explicit DiskPoints(std::size_t pairs);
    [[nodiscard]] std::size_t size() const { return x_.size(); }
    [[nodiscard]] std::span<const double> x() const { return x_; }
    [[nodiscard]] std::span<const double> y() const { return y_; }

  private:
    std::vector<double> x_;
    std::vector<double> y_;
};

/// The sun's disk in the sky and what stands before it.
struct DiskView {
    Vec3 origin;  ///< of the sights
    Vec3 centre;  ///< unit vector
    Angle radius;
    std::span<const rays::Sight* const> sights;
    std::span<const geometry::PieceOptics> optics;  ///< one per piece of the garden
    std::span<const Vec3> sky_edges;             ///< sky is where dot(edge, d) > 0 for all of them
    const geometry::Horizon* horizon = nullptr;  ///< null: all that hides sky is in sky_edges
};

/// Adds up the disk at the given points. Keeps its memory from call to call.
class DiskSum {
  public:
    [[nodiscard]] DiskShares shares(const DiskView& view, const DiskPoints& points);

  private:
    void hide_beyond(Vec3 sky_edge, const geometry::RayFan& fan);
    void hide_below_horizon(const geometry::Horizon& horizon, const geometry::RayFan& fan);

    std::vector<double> light_;   ///< product of transmittances, 0 where blocked
    std::vector<double> is_met_;  ///< 1 where something was met
    std::vector<double> scratch_;
};

}  // namespace sunfleck::exposure
