#pragma once

#include "sunfleck/base/units.h"

#include <optional>

namespace sunfleck::scene {

/// About how far east of true north a compass points, good to some 3 degrees between 2010 and
/// 2035: enough to doubt a sign, not to survey by. Nothing near the magnetic poles, where a
/// compass is of no use.
///
/// World Magnetic Model 2020 (NOAA and British Geological Survey), degrees 1 to 6 at sea level on
/// a sphere, main field with its yearly change to degree 4. Coefficients from memory; the results
/// are checked at nine places.
[[nodiscard]] std::optional<Angle> magnetic_declination(Latitude latitude, Longitude longitude,
                                                        int year);

}  // namespace sunfleck::scene
