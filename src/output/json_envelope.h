#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/base/units.h"
#include "sunfleck/output/envelope.h"
#include "sunfleck/sun/civil_time.h"

#include <nlohmann/json.hpp>

#include <optional>
#include <string>
#include <string_view>

/// Stable machine output. Include this in the few .cpp files that write JSON.
namespace sunfleck::output {

using Json = nlohmann::ordered_json;

/// The envelope of a success; the command adds its own keys.
[[nodiscard]] Json result_envelope(const Envelope& envelope);
/// One problem as an object; `nearest` only in errors.
[[nodiscard]] Json warning_json(const Problem& problem);
[[nodiscard]] Json error_json(const Problem& problem);
[[nodiscard]] Json warnings_json(const Problems& problems);
[[nodiscard]] Json errors_json(const Problems& problems);

/// The value, or null when it is unknown.
template <typename T>
[[nodiscard]] Json or_null(const std::optional<T>& value) {
    return value ? Json(*value) : Json(nullptr);
}
/// The text, or null when it is empty.
[[nodiscard]] Json or_null(std::string_view text);
/// "2026-06-21T12:30:00.000Z", or null.
[[nodiscard]] Json utc_or_null(const std::optional<UtcSeconds>& instant);
/// "2026-06-21T13:30:00.000+01:00", or null.
[[nodiscard]] Json local_or_null(const std::optional<UtcSeconds>& instant,
                                 const sun::TimeZone& zone);

/// The text of an answer: UTF-8 with a newline at its end, keys in the order they were added,
/// numbers by the fewest digits that read back the same, whole ones without a point. What fits
/// into 100 columns stands on one line. A number that is not finite is a bug. Broken UTF-8 is
/// replaced.
[[nodiscard]] std::string json_text(const Json& json);

}  // namespace sunfleck::output
