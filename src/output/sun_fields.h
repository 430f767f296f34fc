#pragma once

#include "sunfleck/output/sun_report.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sunfleck::output {

/// One value under its stable name, for JSON and CSV alike: a text, a number, or neither (null).
struct SunField {
    const char* name;
    std::optional<std::string> text;
    std::optional<double> number;
};

/// "polar_day"; the names of the machine output.
[[nodiscard]] std::string_view state_name(sun::DayState state);

/// The day's own values, without its hours.
[[nodiscard]] std::vector<SunField> day_fields(const SunDate& date, const sun::TimeZone& zone);
[[nodiscard]] std::vector<SunField> instant_fields(const SunInstant& instant,
                                                   const sun::TimeZone& zone);

}  // namespace sunfleck::output
