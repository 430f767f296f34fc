#pragma once

#include "sunfleck/geometry/garden.h"
#include "sunfleck/rays/engine.h"
#include "sunfleck/rays/sight.h"

namespace sunfleck::exposure {

/// How much of a beam the far horizon and the ground hide.
class Skyline {
  public:
    explicit Skyline(const geometry::Horizon& horizon);
    [[nodiscard]] rays::Cover cover(const rays::Beam& beam) const;

  private:
    geometry::Horizon profile_;  ///< the far horizon without the ground plane
    Vec3 ground_normal_;
    Angle top_;
};

}  // namespace sunfleck::exposure
