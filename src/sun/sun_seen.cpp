#include "sunfleck/sun/sun_seen.h"

#include "sunfleck/sun/refraction.h"
#include "sunfleck/sun/solar_position.h"

namespace sunfleck::sun {

SunSeen sun_seen(UtcSeconds instant, const Place& place) {
    const SolarPosition position = solar_position(instant, place);
    const Angle altitude = position.altitude_true + refraction(position.altitude_true);
    return {direction(position.azimuth, altitude), position.azimuth, altitude};
}

}  // namespace sunfleck::sun
