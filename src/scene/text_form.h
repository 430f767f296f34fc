#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace sunfleck::scene {

/// What a text in a scene may look like. Each has a pattern (ECMA 262, as JSON Schema uses; empty:
/// none) that says the same as fits().
enum class TextForm {
    free,       ///< any characters but controls
    note,       ///< any characters
    id,         ///< letters of any script, digits, '_'
    spot,       ///< an id, or an id, '-' and a number: "A-3"
    zone,       ///< a name of the IANA time zone database
    month_day,  ///< "06-21"
    date,       ///< "2026-06-21"
    clock,      ///< "07:30"
    file,       ///< a path beside the scene
};

struct TextLimits {
    std::size_t shortest = 1;  ///< characters
    std::size_t longest = 100;
};

[[nodiscard]] TextLimits limits_of(TextForm form);
[[nodiscard]] std::string_view pattern_of(TextForm form);
/// Whether the text has the form and its length; what no pattern can say (a real date, letters of
/// other scripts) is not looked at.
[[nodiscard]] bool fits(std::string_view text, TextForm form);
/// "a day such as \"06-21\""; follows "must be" in messages.
[[nodiscard]] std::string_view words_for(TextForm form);

}  // namespace sunfleck::scene
