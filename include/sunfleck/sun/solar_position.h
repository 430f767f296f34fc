#pragma once

#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/sun/place.h"

namespace sunfleck::sun {

/// Where the sun's centre stands at an instant.
struct SolarPosition {
    Angle azimuth;        ///< clockwise from true north, [0, 360); of little meaning at the zenith
    Angle altitude_true;  ///< topocentric, above the level horizon, without refraction
    Angle hour_angle;     ///< topocentric, west positive, (-180, 180]
    Angle declination;    ///< geocentric, equinox of date
    Angle right_ascension;              ///< geocentric, equinox of date, [0, 360)
    double equation_of_time_min = 0.0;  ///< apparent minus mean solar time
    double distance_au = 1.0;
};

/// The product's sun: apparent_sun() seen from the place, with parallax and diurnal aberration.
///
/// Any instant, any place: at a pole the longitude's meridian still gives azimuth and hour angle.
/// Accuracy 1950 to 2060 as a function of UT1, separation from ERFA 2.0.0 on 630 instants at 15
/// places (78 N to 78 S): see solar_position_test. Real clocks (UTC) differ from UT1 by up to
/// 0.9 s, worth 0.004 degrees.
[[nodiscard]] SolarPosition solar_position(UtcSeconds instant, const Place& place);

/// NOAA's solar calculator equations as published, for comparison. Up to 0.0155 degrees off on
/// the same instants: they leave out terrestrial time, the planets, and parallax. Source: NOAA
/// Global Monitoring Laboratory, solar calculation spreadsheet.
[[nodiscard]] SolarPosition noaa_solar_position(UtcSeconds instant, const Place& place);

/// Unit vector towards an azimuth and altitude: x east, y north, z up.
[[nodiscard]] Vec3 direction(Angle azimuth, Angle altitude);
/// Azimuth of a direction, [0, 360); 0 straight up.
[[nodiscard]] Angle azimuth_of(Vec3 direction);
/// Altitude of a direction, -90 to 90 degrees, good to the last digits near the zenith too.
[[nodiscard]] Angle altitude_of(Vec3 direction);
/// The angle between two directions, 0 to 180 degrees.
[[nodiscard]] Angle angular_separation(Vec3 a, Vec3 b);

}  // namespace sunfleck::sun
