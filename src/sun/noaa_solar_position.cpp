#include "sun/turn.h"
#include "sunfleck/sun/solar_position.h"

#include <algorithm>
#include <cmath>

// The equations of NOAA's solar calculator (its spreadsheet), Global Monitoring Laboratory, after
// Meeus, Astronomical Algorithms (1991). Symbols as there: T julian centuries, L0 mean longitude,
// M mean anomaly, e eccentricity, C equation of the centre, y = tan^2(obliquity / 2).
namespace sunfleck::sun {
namespace {

double sind(double degrees) {
    return sin(Angle::degrees(degrees));
}
double cosd(double degrees) {
    return cos(Angle::degrees(degrees));
}

struct Orbit {
    double mean_longitude_deg;
    double mean_anomaly_deg;
    double eccentricity;
    double centre_deg;
};

Orbit orbit(double t) {
    const double m = 357.52911 + t * (35999.05029 - 0.0001537 * t);
    return {.mean_longitude_deg = 280.46646 + t * (36000.76983 + 0.0003032 * t),
            .mean_anomaly_deg = m,
            .eccentricity = 0.016708634 - t * (0.000042037 + 0.0000001267 * t),
            .centre_deg = sind(m) * (1.914602 - t * (0.004817 + 0.000014 * t)) +
                          sind(2.0 * m) * (0.019993 - 0.000101 * t) + sind(3.0 * m) * 0.000289};
}

double distance_au(const Orbit& o) {
    return 1.000001018 * (1.0 - o.eccentricity * o.eccentricity) /
           (1.0 + o.eccentricity * cosd(o.mean_anomaly_deg + o.centre_deg));
}

double obliquity_deg(double t) {
    const double seconds = 21.448 - t * (46.815 + t * (0.00059 - t * 0.001813));
    const double mean = 23.0 + (26.0 + seconds / 60.0) / 60.0;
    return mean + 0.00256 * cosd(125.04 - 1934.136 * t);
}

double equation_of_time_min(const Orbit& o, double obliquity) {
    const double half_tan = tan(Angle::degrees(obliquity / 2.0));
    const double y = half_tan * half_tan;
    const double e = o.eccentricity;
    const double l0 = o.mean_longitude_deg;
    const double m = o.mean_anomaly_deg;
    const double radians = y * sind(2.0 * l0) - 2.0 * e * sind(m) +
                           4.0 * e * y * sind(m) * cosd(2.0 * l0) - 0.5 * y * y * sind(4.0 * l0) -
                           1.25 * e * e * sind(2.0 * m);
    return 4.0 * Angle::radians(radians).in_degrees();
}

double hour_angle_deg(UtcSeconds instant, double equation_min, Longitude longitude) {
    const double minutes_utc = std::fmod(instant.since_1970() / 60.0, 1440.0);
    const double solar_minutes = minutes_utc + equation_min + 4.0 * longitude.in_degrees();
    return Angle::radians(half_turn_rad(Angle::degrees(solar_minutes / 4.0 - 180.0).in_radians()))
        .in_degrees();
}

}  // namespace

SolarPosition noaa_solar_position(UtcSeconds instant, const Place& place) {
    const double julian_day = instant.since_1970() / 86400.0 + 2440587.5;
    const double t = (julian_day - 2451545.0) / 36525.0;
    const Orbit o = orbit(t);
    const double longitude =
        o.mean_longitude_deg + o.centre_deg - 0.00569 - 0.00478 * sind(125.04 - 1934.136 * t);
    const double obliquity = obliquity_deg(t);
    const double equation = equation_of_time_min(o, obliquity);
    const double hour_angle = hour_angle_deg(instant, equation, place.longitude);

    const double sin_declination = sind(obliquity) * sind(longitude);
    const double cos_declination = std::sqrt(1.0 - sin_declination * sin_declination);
    const double sin_latitude = sin(place.latitude.angle());
    const double cos_latitude = cos(place.latitude.angle());
    const double sin_altitude =
        sin_latitude * sin_declination + cos_latitude * cos_declination * cosd(hour_angle);
    // The same azimuth as NOAA's arc cosine, without its loss of digits near 0 and 180 degrees.
    const double east = -cos_declination * sind(hour_angle);
    const double north =
        sin_declination * cos_latitude - cos_declination * cosd(hour_angle) * sin_latitude;
    const double ascension = std::atan2(cosd(obliquity) * sind(longitude), cosd(longitude));
    return {.azimuth = azimuth_of({east, north, 0.0}),
            .altitude_true = Angle::radians(std::asin(std::clamp(sin_altitude, -1.0, 1.0))),
            .hour_angle = Angle::degrees(hour_angle),
            .declination = Angle::radians(std::asin(sin_declination)),
            .right_ascension = Angle::radians(full_turn_rad(ascension)),
            .equation_of_time_min = equation,
            .distance_au = distance_au(o)};
}

}  // namespace sunfleck::sun
