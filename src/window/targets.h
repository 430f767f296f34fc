#pragma once

#include "window/view_model.h"

#include <string>
#include <vector>

namespace sunfleck::window {

/// Something that can be pressed, by its name in scripts and where it lies.
struct Target {
    std::string name;  ///< "noon", "row 3", "undo"
    SheetBox box;
    std::string words;  ///< as written on it
    std::string key;    ///< the key that does the same, as written on it; empty: none is shown
};

/// Buttons of the sky band, the page and the path, as they lie now.
[[nodiscard]] std::vector<Target> sky_targets(const ViewModel& view);
[[nodiscard]] std::vector<Target> page_targets(const ViewModel& view);
[[nodiscard]] std::vector<Target> path_targets(const ViewModel& view);
[[nodiscard]] std::vector<Target> all_targets(const ViewModel& view);

/// Rows that the page's list shows at once.
[[nodiscard]] std::size_t rows_shown(const Regions& regions);
/// Height of one row.
inline constexpr double row_height = 46.0;
/// Where the page's first row begins.
[[nodiscard]] double rows_top(const Regions& regions);

}  // namespace sunfleck::window
