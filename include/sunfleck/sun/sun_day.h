#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/units.h"
#include "sunfleck/sun/civil_time.h"
#include "sunfleck/sun/place.h"

#include <optional>

namespace sunfleck::sun {

/// Whether the sun crosses the horizon on a day.
enum class DayState { normal, polar_day, polar_night, rise_only, set_only };

/// Rise, noon and set of one local day: the sun's centre at -0.8333 degrees true altitude over a
/// flat horizon. The day is the 24 h around the meridian passage nearest local mean noon.
struct SunDay {
    DayState state = DayState::normal;
    std::optional<UtcSeconds> sunrise;     ///< the last upward crossing before noon
    UtcSeconds solar_noon;                 ///< meridian passage, also in polar night
    std::optional<UtcSeconds> sunset;      ///< the last downward crossing after noon
    std::optional<UtcSeconds> civil_dawn;  ///< centre at -6 degrees, by the same rule
    std::optional<UtcSeconds> civil_dusk;
    Angle noon_altitude;  ///< true altitude at solar noon
    /// The part of the 24 h around noon in which the sun is up: sunrise to sunset, the whole
    /// window in polar day, empty (from == to == noon) in polar night; from sunrise to the
    /// window's end in rise_only, from its start to sunset in set_only.
    UtcSeconds up_from;
    UtcSeconds up_to;

    /// Hours between up_from and up_to.
    [[nodiscard]] double day_length_h() const { return up_to.seconds_after(up_from) / 3600.0; }
};

/// True altitude of the centre at sunrise and sunset: 34' of refraction and 16' of radius.
[[nodiscard]] constexpr Angle rise_altitude() {
    return Angle::degrees(-0.8333);
}

/// The local mean date decides the day: noon nearest 12:00 local mean time of `date`.
///
/// Crossings are found by iteration to 0.001 s; within a pole's last days, when the sun drifts
/// through the horizon on the other side of noon than it should, the only crossing of the window
/// counts. Accuracy against ERFA 2.0.0 on 168 place-days: see sun_day_test.
[[nodiscard]] SunDay sun_day(Date date, const Place& place);

/// The day whose solar noon falls on that date of the zone's clock, which near the date line is
/// not the local mean date. A date that the zone skips gets the nearest.
[[nodiscard]] SunDay sun_day(Date civil_date, const Place& place, const TimeZone& zone);

/// Solar (apparent) time as hours after solar midnight: 12 at the meridian passage. `day` is the
/// day meant; 11.0 is the instant one hour before its solar noon.
[[nodiscard]] UtcSeconds solar_clock(const SunDay& day, double solar_hours);

}  // namespace sunfleck::sun
