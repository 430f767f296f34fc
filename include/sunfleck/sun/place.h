#pragma once

#include "sunfleck/base/units.h"

namespace sunfleck::sun {

/// Where on Earth the sun is watched from.
struct Place {
    Latitude latitude;
    Longitude longitude;
    double elevation_m = 0.0;
    constexpr bool operator==(const Place&) const = default;
};

/// Air for refraction; the default is the standard of the refraction formulas.
struct Air {
    double pressure_hpa = 1010.0;
    double temperature_c = 10.0;
};

}  // namespace sunfleck::sun
