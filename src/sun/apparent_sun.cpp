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

struct Ecliptic {
    double longitude_rad;
    double latitude_rad;
};

/// The sun's apparent place on the ecliptic of date, without nutation.
Ecliptic apparent_ecliptic(const EarthOrbit& earth, double centuries) {
    // VSOP87 counts longitude from an equinox that moves by IAU 1976 precession; IAU 2006 is
    // slower by 0.3004" a century (5029.0966 against 5028.7962).
    const double precession = -0.3004 * arcsec_rad * centuries;
    const double geometric = earth.longitude_rad + pi + precession;
    // To FK5, Meeus (32.3); the terms in the latitude's tangent vanish for the sun.
    const double slow = geometric - Angle::degrees(1.397 * centuries).in_radians();
    const double longitude =
        geometric - 0.09033 * arcsec_rad - 20.4898 * arcsec_rad / earth.radius_au;
    const double latitude =
        -earth.latitude_rad + 0.03916 * arcsec_rad * (std::cos(slow) - std::sin(slow));
    return {longitude, latitude};
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
    const Ecliptic sun = apparent_ecliptic(earth, centuries);
    const double obliquity = mean_obliquity_rad(centuries) + nod.obliquity_rad;
    const double longitude = sun.longitude_rad + nod.longitude_rad;

    const double sin_lon = std::sin(longitude);
    const double ascension =
        std::atan2(sin_lon * std::cos(obliquity) - std::tan(sun.latitude_rad) * std::sin(obliquity),
                   std::cos(longitude));
    const double declination =
        std::asin(std::sin(sun.latitude_rad) * std::cos(obliquity) +
                  std::cos(sun.latitude_rad) * std::sin(obliquity) * sin_lon);
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
