#pragma once

#include <string_view>

namespace sunfleck::scene {

/// species.csv, compiled in.
[[nodiscard]] std::string_view species_text();

}  // namespace sunfleck::scene
