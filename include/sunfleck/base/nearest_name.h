#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace sunfleck {

/// The fewest single-character changes (one inserted, left out, replaced, or two neighbours
/// swapped; no part changed twice) that turn one text into the other, counted in characters.
/// This is the optimal string alignment distance; small and capital ASCII letters count as equal.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

/// The known name that `name` was most likely meant to be; empty when none is near enough: at
/// most one change per three characters, and at least one is always allowed from two characters
/// on. Of equally near names the first wins.
[[nodiscard]] std::string nearest_name(std::string_view name, std::span<const std::string> known);

}  // namespace sunfleck
