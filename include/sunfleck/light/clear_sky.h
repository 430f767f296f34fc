#pragma once

#include "sunfleck/base/units.h"

namespace sunfleck::light {

/// Clear-sky global irradiance on the level, W/m2, after Haurwitz (1945, 1946):
/// 1098 cos(z) exp(-0.057 / cos(z)), z the apparent zenith distance; 0 with the sun down.
/// For a quick view only: it knows neither height nor haze.
[[nodiscard]] double haurwitz_global_w_m2(Angle altitude_apparent);

}  // namespace sunfleck::light
