#include "sunfleck/sun/solar_position.h"

#include "sun/topocentric.h"
#include "sun/turn.h"
#include "sunfleck/sun/apparent_sun.h"

#include <cmath>

namespace sunfleck::sun {

SolarPosition solar_position(UtcSeconds instant, const Place& place) {
    const ApparentSun sun = apparent_sun(instant);
    const LocalSun here = Topocentric(place).local(
        {.greenwich_hour_angle_rad = (sun.greenwich_sidereal - sun.right_ascension).in_radians(),
         .declination_rad = sun.declination.in_radians(),
         .distance_au = sun.distance_au});
    return {.azimuth = azimuth_of(here.direction),
            .altitude_true = altitude_of(here.direction),
            .hour_angle = Angle::radians(here.hour_angle_rad),
            .declination = sun.declination,
            .right_ascension = sun.right_ascension,
            .equation_of_time_min = sun.equation_of_time_min,
            .distance_au = sun.distance_au};
}

Vec3 direction(Angle azimuth, Angle altitude) {
    return {sin(azimuth) * cos(altitude), cos(azimuth) * cos(altitude), sin(altitude)};
}

Angle azimuth_of(Vec3 direction) {
    return Angle::radians(full_turn_rad(std::atan2(direction.x, direction.y)));
}

Angle altitude_of(Vec3 direction) {
    return Angle::radians(std::atan2(direction.z, std::hypot(direction.x, direction.y)));
}

Angle angular_separation(Vec3 a, Vec3 b) {
    return Angle::radians(std::atan2(length(cross(a, b)), dot(a, b)));
}

}  // namespace sunfleck::sun
