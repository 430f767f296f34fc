#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/units.h"
#include "sunfleck/sun/civil_time.h"

namespace sunfleck::window {

/// The hour and the date that the window shows, by the garden's clock.
struct SkyMoment {
    Date date;
    int minute = 720;  ///< of the day, 0 to 1439
    bool operator==(const SkyMoment&) const = default;
};

/// The moment so many minutes later, through midnight if need be.
[[nodiscard]] SkyMoment later(SkyMoment moment, int minutes);
/// The same clock on another day, so many days later.
[[nodiscard]] SkyMoment days_later(SkyMoment moment, int days);
/// The same day of another month, or its last.
[[nodiscard]] SkyMoment months_later(SkyMoment moment, int months);

/// Its instant. Of a doubled hour the first, of a skipped one the instant as much after the step.
[[nodiscard]] UtcSeconds instant_of(SkyMoment moment, const sun::TimeZone& zone);

}  // namespace sunfleck::window
