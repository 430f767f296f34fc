#pragma once

#include "sunfleck/geometry/passage.h"

namespace sunfleck::geometry {

/// What the ray meets of a lath panel: its laths one by one from near, their mean from afar.
[[nodiscard]] Passage pass_laths(const LathBody& laths, Vec3 origin, Vec3 direction);

/// Half of the panel's extent square to its laths' axes: in the panel, and square to it.
struct LathHalves {
    double across_m = 0.0;
    double up_m = 0.0;
};
[[nodiscard]] LathHalves lath_halves(const LathBody& laths);

}  // namespace sunfleck::geometry
