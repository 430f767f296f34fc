#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/units.h"
#include "sunfleck/sun/civil_time.h"

namespace sunfleck::sun {

/// The four turns of the sun's year, in their order.
enum class SolarEvent { march_equinox, june_solstice, september_equinox, december_solstice };

/// The instant at which the sun's apparent longitude is 0, 90, 180 or 270 degrees in that year.
///
/// Any year from 1000 to 3000. Accuracy: 0.3 arcsec of longitude are 7 s; 20 events of 1950 to
/// 2060 against ERFA 2.0.0 in solar_event_test. Universal time needs delta-T, whose forecast is
/// uncertain by seconds now and by a minute in 2060.
[[nodiscard]] UtcSeconds solar_event(int year, SolarEvent event);

/// The date, on the zone's clock, of the solstice that makes the longest days there: June's in
/// the north and on the equator, December's in the south.
[[nodiscard]] Date summer_solstice_date(int year, Latitude latitude, const TimeZone& zone);

}  // namespace sunfleck::sun
