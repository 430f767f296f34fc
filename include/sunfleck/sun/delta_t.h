#pragma once

#include "sunfleck/base/units.h"

namespace sunfleck::sun {

/// Terrestrial time minus universal time, seconds.
///
/// Polynomials of Espenak & Meeus, fitted to observation up to 2005 and a forecast since: about
/// 6 s too high in 2026, which is 0.00007 degrees of the sun. Defined for every year; pieces
/// from 1700 on, the long-term parabola before. Source: NASA/TP-2006-214141, section 2.7.
[[nodiscard]] double delta_t_s(UtcSeconds instant);

}  // namespace sunfleck::sun
