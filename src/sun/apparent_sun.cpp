#include "sunfleck/sun/apparent_sun.h"

#include "sun/earth_orbit.h"
#include "sun/nutation.h"
#include "sun/turn.h"
#include "sunfleck/sun/delta_t.h"

#include <cmath>
#include <numbers>

namespace sunfleck::sun {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double arcsec_rad = pi / 648000.0;
constexpr double j2000_s = 946728000.0;  ///< 2000-01-01T12:00 in seconds since 1970

/// The sun's apparent longitude on the ecliptic of date, without nutation.
double apparent_longitude_rad(const EarthOrbit& earth, double centuries) {
    // VSOP87 counts longitude from an equinox that moves by IAU 1976 precession; IAU 2006 is
    // slower by 0.3004" a century (5029.0966 against 5028.7962). Both equinoxes are dynamical, so
    // Meeus' turn of -0.09" to the FK5 equinox (his chapter 32) has no place here: with it the
    // mean difference from ERFA would be -0.08" instead of 0.01".
    const double precession = -0.3004 * arcsec_rad * centuries;
    const double aberration = -20.4898 * arcsec_rad / earth.radius_au;
    return earth.longitude_rad + pi + precession + aberration;
}

/// Greenwich mean sidereal time, IAU 2006: Earth rotation angle of universal time plus the
/// accumulated precession of terrestrial time.
double mean_sidereal_rad(double days_ut, double t) {
    const double turns = 0.7790572732640 + 0.00273781191135448 * days_ut;
    const double day_part = days_ut - std::floor(days_ut);
    const double precession =
        0.014506 + t * (4612.156534 + t * (1.3915817 + t * (-0.00000044 - 0.000029956 * t)));
    return 2.0 * pi * (turns + day_part) + precession * arcsec_rad;
}

}  // namespace

ApparentSun apparent_sun(UtcSeconds instant) {
    const double since_j2000_s = instant.since_1970() - j2000_s;
    const double days_ut = since_j2000_s / 86400.0;
    const double centuries = (since_j2000_s + delta_t_s(instant)) / (86400.0 * 36525.0);

    const EarthOrbit earth = earth_orbit(centuries / 10.0);
    const Nutation nod = nutation(centuries);
    const double obliquity = mean_obliquity_rad(centuries) + nod.obliquity_rad;
    const double longitude = apparent_longitude_rad(earth, centuries) + nod.longitude_rad;
    const double latitude = -earth.latitude_rad;

    const double ascension = std::atan2(
        std::sin(longitude) * std::cos(obliquity) - std::tan(latitude) * std::sin(obliquity),
        std::cos(longitude));
    const double declination =
        std::asin(std::sin(latitude) * std::cos(obliquity) +
                  std::cos(latitude) * std::sin(obliquity) * std::sin(longitude));
    const double sidereal =
        mean_sidereal_rad(days_ut, centuries) + nod.longitude_rad * std::cos(obliquity);
    // Hour angle of the true sun at Greenwich, less that of the mean sun (0 at 12:00).
    const double equation = half_turn_rad(sidereal - ascension - 2.0 * pi * days_ut);
    return {.longitude = Angle::radians(full_turn_rad(longitude)),
            .right_ascension = Angle::radians(full_turn_rad(ascension)),
            .declination = Angle::radians(declination),
            .greenwich_sidereal = Angle::radians(full_turn_rad(sidereal)),
            .equation_of_time_min = equation * (720.0 / pi),
            .distance_au = earth.radius_au};
}

}  // namespace sunfleck::sun
