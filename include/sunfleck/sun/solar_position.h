#pragma once

#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/sun/place.h"

namespace sunfleck::sun {

/// Where the sun's centre stands at an instant.
struct SolarPosition {
    Angle azimuth;          ///< clockwise from true north, [0, 360)
    Angle altitude_true;    ///< topocentric, above the level horizon, without refraction
    Angle hour_angle;       ///< topocentric, west positive, (-180, 180]
    Angle declination;      ///< geocentric, equinox of date
    Angle right_ascension;  ///< geocentric, equinox of date, [0, 360)
    double equation_of_time_min = 0.0;  ///< apparent minus mean solar time
    double distance_au = 1.0;
};

/// The product's sun.
[[nodiscard]] SolarPosition solar_position(UtcSeconds instant, const Place& place);

/// NOAA's solar calculator equations as published, for comparison.
[[nodiscard]] SolarPosition noaa_solar_position(UtcSeconds instant, const Place& place);

/// Unit vector towards an azimuth and altitude: x east, y north, z up.
[[nodiscard]] Vec3 direction(Angle azimuth, Angle altitude);

}  // namespace sunfleck::sun
