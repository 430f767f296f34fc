#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/problem.h"
#include "sunfleck/base/units.h"
#include "sunfleck/sun/civil_time.h"

#include <optional>
#include <string_view>

namespace sunfleck::sun {

/// An instant as a person or another program writes it.
struct TypedInstant {
    UtcSeconds instant;
    /// The clock shows this time twice; `instant` is the first. The other can be asked for by
    /// writing the offset.
    bool is_doubled = false;
};

/// What a text without "Z" and without an offset means.
enum class BareTime { clock_of_zone, utc };

/// The instant of "2026-06-21T13:30", "2026-06-21 13:30:05.25", "2026-06-21T12:30Z" or
/// "2026-06-21T13:30+01:00" (also +0100, +01); and, when `day` is given, of "13:30" on that day.
/// Seconds may have up to nine decimals. Years 1900 to 2100, inside which the sun is tested.
///
/// Fails with code "bad_instant" (no such text, date or hour), "year_out_of_range" or
/// "skipped_hour" (the zone's clock never shows this time). The problems carry no file or line.
[[nodiscard]] Result<TypedInstant> parse_instant(std::string_view text, const TimeZone& zone,
                                                 BareTime bare = BareTime::clock_of_zone,
                                                 std::optional<Date> day = std::nullopt);

}  // namespace sunfleck::sun
