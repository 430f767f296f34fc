#pragma once

#include <string>
#include <string_view>

namespace sunfleck {

/// The text as a JSON string with its quotes. `text` must be UTF-8; all that can be written plainly
/// is.
[[nodiscard]] std::string json_quoted(std::string_view text);

/// The shortest number text that reads back as the same double. `value` must be finite.
[[nodiscard]] std::string json_number(double value);

}  // namespace sunfleck
