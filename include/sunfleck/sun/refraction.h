#pragma once

#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/sun/place.h"

namespace sunfleck::sun {

/// How much the air lifts a body at this true altitude (added to it gives the apparent one).
///
/// R = 1.02' / tan(h + 10.3 w^0.4 / (h + 5.11)) x P/1010 / w, h in degrees, w = (273 + T) / 283;
/// 0 at the zenith. The factor w^0.4 is ours: warm air is a thicker layer, which takes more from
/// the refraction near the horizon than its density alone; the power was fitted to ray-traced
/// air and changes nothing at the standard 10 C. From -1 degree down R keeps its value at -1: no
/// level horizon shows the sun there, and the formula turns round at -1.9. So R never rises with
/// altitude, the apparent altitude always does, and both are continuous for every altitude.
/// Accuracy against ray-traced air of three climates: 0.0084 degrees at the horizon, 0.0026
/// above 5 degrees (refraction_test); real air moves a sunrise by a minute or more.
/// Source: Saemundsson, Sky and Telescope 72 (1986) 70; Meeus, Astronomical Algorithms, (16.4).
[[nodiscard]] Angle refraction(Angle altitude_true, const Air& air = {});

/// NOAA's piecewise refraction as its calculator publishes it, for comparison.
[[nodiscard]] Angle noaa_refraction(Angle altitude_true);

/// The direction in which a body is seen that stands in this true direction (both unit vectors,
/// z up): lifted in its vertical plane by refraction().
[[nodiscard]] Vec3 apparent_direction(Vec3 true_direction, const Air& air = {});

}  // namespace sunfleck::sun
