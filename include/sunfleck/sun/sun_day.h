#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/units.h"
#include "sunfleck/sun/place.h"

#include <optional>

namespace sunfleck::sun {

/// Whether the sun crosses the horizon on a day.
enum class DayState { normal, polar_day, polar_night, rise_only, set_only };

/// Rise, noon and set of one local day: the sun's centre at -0.8333 degrees true altitude over a
/// flat horizon. The day is the 24 h around the meridian passage nearest local mean noon.
struct SunDay {
    DayState state = DayState::normal;
    std::optional<UtcSeconds> sunrise;
    UtcSeconds solar_noon;  ///< meridian passage, also in polar night
    std::optional<UtcSeconds> sunset;
    std::optional<UtcSeconds> civil_dawn;  ///< centre at -6 degrees
    std::optional<UtcSeconds> civil_dusk;
    Angle noon_altitude;  ///< true altitude at solar noon
    /// The part of the 24 h around noon in which the sun is up: sunrise to sunset, the whole
    /// window in polar day, empty (from == to) in polar night.
    UtcSeconds up_from;
    UtcSeconds up_to;
};

/// The local mean date decides the day: noon nearest 12:00 local mean time of `date`.
[[nodiscard]] SunDay sun_day(Date date, const Place& place);

}  // namespace sunfleck::sun
