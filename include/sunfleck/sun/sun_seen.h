#pragma once

#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/sun/place.h"

namespace sunfleck::sun {

/// The sun's centre where it is seen: solar_position() lifted by refraction() in standard air.
struct SunSeen {
    Vec3 direction;  ///< unit vector: x east, y north, z up
    Angle azimuth;
    Angle altitude;  ///< apparent; below zero when the sun is down
};
[[nodiscard]] SunSeen sun_seen(UtcSeconds instant, const Place& place);

}  // namespace sunfleck::sun
