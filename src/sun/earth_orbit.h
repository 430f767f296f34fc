#pragma once

namespace sunfleck::sun {

/// Where the Earth is as seen from the sun: ecliptic and equinox of date.
struct EarthOrbit {
    double longitude_rad = 0.0;  ///< not reduced to one turn
    double latitude_rad = 0.0;
    double radius_au = 1.0;
};

/// The Earth's heliocentric place, `millennia` of 365250 days of terrestrial time after J2000.0.
///
/// The terms of VSOP87 that the NREL Solar Position Algorithm keeps. Accuracy 1900 to 2100:
/// 0.65 arcsec in longitude, 0.14 in the mean square, 0.3 in latitude, 3e-6 au, against ERFA
/// 2.0.0 (earth_orbit_test).
/// Source: Reda & Andreas, NREL/TP-560-34302 (2008), table A4.2; Bretagnon & Francou (1988).
[[nodiscard]] EarthOrbit earth_orbit(double millennia);

}  // namespace sunfleck::sun
