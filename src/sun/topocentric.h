#pragma once

#include "sunfleck/base/vec3.h"
#include "sunfleck/sun/place.h"

namespace sunfleck::sun {

/// What the sky of a place needs to know of the sun at one instant.
struct GeocentricSun {
    double greenwich_hour_angle_rad = 0.0;  ///< west positive
    double declination_rad = 0.0;
    double distance_au = 1.0;
};

/// The sun from a place: unit vector x east, y north, z up, and hour angle there.
struct LocalSun {
    Vec3 direction;
    double hour_angle_rad = 0.0;  ///< west positive, (-pi, pi]
};

/// Turns geocentric places into directions at one place: parallax on the WGS 84 ellipsoid and
/// diurnal aberration (0.32" at the equator) included, refraction not.
class Topocentric {
  public:
    explicit Topocentric(const Place& place);
    [[nodiscard]] LocalSun local(const GeocentricSun& sun) const;
    [[nodiscard]] Vec3 direction(const GeocentricSun& sun) const;

  private:
    /// The sun from here, axes of the place's meridian: x to the equator below the meridian,
    /// y west, z to the pole; length in au.
    [[nodiscard]] Vec3 equatorial(const GeocentricSun& sun) const;
    [[nodiscard]] Vec3 level(Vec3 equatorial) const;

    double longitude_rad_;
    double sin_latitude_;
    double cos_latitude_;
    double from_axis_au_;     ///< the place's distance from the Earth's axis
    double from_equator_au_;  ///< and from the plane of the equator, north positive
    double speed_;            ///< its eastward speed, in speeds of light
};

}  // namespace sunfleck::sun
