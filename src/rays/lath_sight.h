#pragma once

#include "sunfleck/geometry/piece.h"
#include "sunfleck/rays/sight.h"

#include <cstdint>
#include <span>
#include <vector>

namespace sunfleck::rays {

/// A panel of laths as it looks from one point: the cone of each lath, and the panel's outline
/// for where only its mean is seen. Beams and fans are inside the cone of the panel's bounding box.
class LathSight {
  public:
    LathSight(const geometry::LathBody& laths, Vec3 origin);

    /// False when a lath is too thin in view to be outlined; then it must not be asked.
    [[nodiscard]] bool is_outlined() const { return is_outlined_; }
    [[nodiscard]] Cover cover(const Beam& beam) const;
    void dim(const geometry::RayFan& fan, FanLight light) const;

  private:
    /// How sharp the sharpest and the most blurred ray around an axis may be.
    struct SharpRange {
        double least = 0.0;
        double most = 1.0;
    };
    [[nodiscard]] SharpRange sharpness_around(Vec3 axis, double sine) const;
    [[nodiscard]] Cover cover_by_laths(const Beam& beam, double sine) const;
    [[nodiscard]] Cover cover_by_mean(const Beam& beam, double sine) const;
    [[nodiscard]] std::span<const Vec3> cone(std::size_t lath) const;
    void add_lath_cones();
    void add_panel_planes();

    const geometry::LathBody* laths_;
    Vec3 origin_;
    bool is_outlined_ = true;
    std::vector<Vec3> planes_;         ///< of all laths' cones, outward
    std::vector<std::uint32_t> ends_;  ///< in planes_, by lath
    std::vector<Vec3> panel_;          ///< planes around the panel's own surface
};

}  // namespace sunfleck::rays
