#pragma once

namespace sunfleck::sun {

/// The nodding of the Earth's axis.
struct Nutation {
    double longitude_rad = 0.0;
    double obliquity_rad = 0.0;
};

/// Nutation, `centuries` of 36525 days of terrestrial time after J2000.0.
///
/// The 30 largest terms of the IAU 1980 series (those of 0.0015 arcsec and more). Accuracy
/// 1900 to 2100: 0.03 arcsec against IAU 2000A (ERFA 2.0.0, see nutation_test).
/// Source: Meeus, Astronomical Algorithms (2nd ed.), chapter 22.
[[nodiscard]] Nutation nutation(double centuries);

/// Mean obliquity of the ecliptic, IAU 2006 (Capitaine et al. 2003), radians.
[[nodiscard]] double mean_obliquity_rad(double centuries);

}  // namespace sunfleck::sun
