#pragma once

#include "sunfleck/base/plain_words.h"
#include "sunfleck/base/units.h"
#include "sunfleck/sun/civil_time.h"

#include <string>

/// The words that need the sun's modules; the others are in base/plain_words.h.
namespace sunfleck::output {

/// "13:40": what the zone's clock shows, to the nearest minute.
[[nodiscard]] std::string clock_words_at(UtcSeconds instant, const sun::TimeZone& zone);
/// The same to 5 min: "12:05".
[[nodiscard]] std::string rounded_clock_words_at(UtcSeconds instant, const sun::TimeZone& zone);
/// "12:05 to 17:05", to 5 min.
[[nodiscard]] std::string clock_range_words(UtcSeconds from, UtcSeconds to,
                                            const sun::TimeZone& zone);

}  // namespace sunfleck::output
