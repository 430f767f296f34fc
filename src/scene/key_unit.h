#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace sunfleck::scene {

/// A unit that a key can end in, or that a user may have had in mind.
struct Unit {
    std::string_view suffix;   ///< of keys: "m", "percent"; empty for one no key uses
    std::string_view symbol;   ///< behind a number: "m", "%"
    std::string_view name;     ///< in a sentence: "metres"
    std::string_view measure;  ///< units convert within one: "length"
    double size = 1.0;         ///< in the measure's first unit
};

/// The unit at the end of a key such as "height_m", the longest that fits; null when there is
/// none.
[[nodiscard]] const Unit* unit_of_key(std::string_view key);
/// The key without its unit: "height" of "height_m".
[[nodiscard]] std::string_view stem_of_key(std::string_view key);
/// `value` in `from` as a value in `to`; nothing when they measure different things.
[[nodiscard]] std::optional<double> converted(double value, const Unit& from, const Unit& to);
/// The value in `to` of a text such as "80 cm" or "0,8"; nothing when it isn't one.
[[nodiscard]] std::optional<double> measured_in(std::string_view text, const Unit* to);

/// "0.8", to at most six significant digits: for hints.
[[nodiscard]] std::string short_number(double value);
/// "0.8 m", "40 %", "12°", "3".
[[nodiscard]] std::string with_unit(std::string_view number, const Unit* unit);

}  // namespace sunfleck::scene
