#pragma once

#include "sunfleck/base/units.h"

namespace sunfleck::sun {

/// The sun as seen from the Earth's centre: true equator and equinox of date, with light time
/// and annual aberration.
struct ApparentSun {
    Angle longitude;                    ///< ecliptic, [0, 360)
    Angle right_ascension;              ///< [0, 360)
    Angle declination;                  ///< -90 to 90
    Angle greenwich_sidereal;           ///< apparent, [0, 360)
    double equation_of_time_min = 0.0;  ///< apparent minus mean solar time
    double distance_au = 1.0;
};

/// The sun's geocentric place. Accuracy 1950 to 2060: 0.0002 degrees against ERFA 2.0.0, mostly
/// the planetary terms left out (solar_position_test). Costs some 200 cosines: for many instants
/// use SunTrack.
///
/// VSOP87 (see earth_orbit), aberration -20.4898" / distance (Meeus, Astronomical Algorithms, 2nd
/// ed., 25.10), IAU 2006 precession and obliquity, IAU 1980 nutation, sidereal time by the Earth
/// rotation angle (IERS Conventions 2010, 5.15 and 5.32).
[[nodiscard]] ApparentSun apparent_sun(UtcSeconds instant);

}  // namespace sunfleck::sun
