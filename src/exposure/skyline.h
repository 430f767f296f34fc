#pragma once

#include "sunfleck/base/vec3.h"
#include "sunfleck/geometry/garden.h"
#include "sunfleck/rays/engine.h"
#include "sunfleck/rays/sight.h"

#include <array>
#include <cstddef>
#include <span>

namespace sunfleck::exposure {

/// What of a beam's sky is hidden by what lies without distance: horizon, ground, and for a
/// point on a pot's wall the half space behind it.
struct SkyInBeam {
    rays::Cover hidden = rays::Cover::none;
    /// True when, where it is mixed, the hidden part is just that of edges().
    bool is_straight = true;
    std::array<Vec3, 4> normals{};
    std::size_t count = 0;

    /// Unit vectors n: sky lies where dot(n, d) > 0 for all of them.
    [[nodiscard]] std::span<const Vec3> edges() const { return {normals.data(), count}; }
    void add(Vec3 normal) { normals[count++] = normal; }
};

/// How much of a beam the far horizon and the ground hide.
class Skyline {
  public:
    explicit Skyline(const geometry::Horizon& horizon);
    [[nodiscard]] SkyInBeam in(const rays::Beam& beam) const;
    [[nodiscard]] rays::Cover cover(const rays::Beam& beam) const { return in(beam).hidden; }

  private:
    void look_at_profile(const rays::Beam& beam, SkyInBeam& sky) const;

    geometry::Horizon profile_;  ///< the far horizon without the ground plane
    Vec3 ground_normal_;
    Angle top_;
    bool has_dips_ = false;  ///< it lies below level somewhere
};

}  // namespace sunfleck::exposure
