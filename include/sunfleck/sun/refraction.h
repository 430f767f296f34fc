#pragma once

#include "sunfleck/base/units.h"
#include "sunfleck/sun/place.h"

namespace sunfleck::sun {

/// How much the air lifts a body at this true altitude (added to it gives the apparent one).
[[nodiscard]] Angle refraction(Angle altitude_true, const Air& air = {});

}  // namespace sunfleck::sun
