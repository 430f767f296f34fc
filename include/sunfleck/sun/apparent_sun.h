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

/// The sun's geocentric place. Accuracy 1950 to 2060: 0.00015 degrees (worst; mean 0.00005)
/// against ERFA 2.0.0, see solar_position_test. Costs some 200 cosines: for many instants use
/// SunTrack.
///
/// VSOP87 (see earth_orbit), aberration -20.4898" / distance, the small turn from VSOP87's frame
/// to FK5 (Meeus, Astronomical Algorithms, 2nd ed., chapters 25 and 32), IAU 2006 precession,
/// IAU 1980 nutation, sidereal time by the Earth rotation angle (IAU 2006).
[[nodiscard]] ApparentSun apparent_sun(UtcSeconds instant);

}  // namespace sunfleck::sun
