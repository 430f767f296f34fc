#include "sun/topocentric.h"

#include "sun/turn.h"

#include <cmath>

namespace sunfleck::sun {
namespace {

constexpr double au_m = 149597870700.0;
constexpr double equator_radius_m = 6378137.0;  ///< WGS 84
constexpr double flattening = 1.0 / 298.257223563;
constexpr double rotation_rad_s = 7.292115e-5;
constexpr double light_m_s = 299792458.0;

}  // namespace

Topocentric::Topocentric(const Place& place)
    : longitude_rad_(place.longitude.angle().in_radians()),
      sin_latitude_(sin(place.latitude.angle())),
      cos_latitude_(cos(place.latitude.angle())) {
    constexpr double e2 = flattening * (2.0 - flattening);
    const double normal_m = equator_radius_m / std::sqrt(1.0 - e2 * sin_latitude_ * sin_latitude_);
    const double from_axis_m = (normal_m + place.elevation_m) * cos_latitude_;
    from_axis_au_ = from_axis_m / au_m;
    from_equator_au_ = (normal_m * (1.0 - e2) + place.elevation_m) * sin_latitude_ / au_m;
    speed_ = rotation_rad_s * from_axis_m / light_m_s;
}

Vec3 Topocentric::equatorial(const GeocentricSun& sun) const {
    const double hour_angle = sun.greenwich_hour_angle_rad + longitude_rad_;
    const double in_plane = sun.distance_au * std::cos(sun.declination_rad);
    return {in_plane * std::cos(hour_angle) - from_axis_au_,
            in_plane * std::sin(hour_angle) - speed_ * sun.distance_au,
            sun.distance_au * std::sin(sun.declination_rad) - from_equator_au_};
}

Vec3 Topocentric::level(Vec3 e) const {
    return normalised(Vec3{-e.y, e.z * cos_latitude_ - e.x * sin_latitude_,
                           e.x * cos_latitude_ + e.z * sin_latitude_});
}

LocalSun Topocentric::local(const GeocentricSun& sun) const {
    const Vec3 e = equatorial(sun);
    return {.direction = level(e), .hour_angle_rad = half_turn_rad(std::atan2(e.y, e.x))};
}

Vec3 Topocentric::direction(const GeocentricSun& sun) const {
    return level(equatorial(sun));
}

}  // namespace sunfleck::sun
