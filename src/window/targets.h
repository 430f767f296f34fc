#pragma once

#include "window/view_model.h"

#include <string>
#include <vector>

namespace sunfleck::window {

/// Something that can be pressed, by its name in scripts and where it lies.
struct Target {
    std::string name;  ///< "noon", "row 3", "undo"
    SheetBox box;
    std::string words;       ///< as written on it
    std::string key;         ///< the key that does the same, as written on it; empty: none is shown
    bool is_filled = false;  ///< the page's one filled button
};

/// Buttons of the sky band, the page and the path, as they lie now.
[[nodiscard]] std::vector<Target> sky_targets(const ViewModel& view);
[[nodiscard]] std::vector<Target> page_targets(const ViewModel& view);
[[nodiscard]] std::vector<Target> path_targets(const ViewModel& view);
[[nodiscard]] std::vector<Target> all_targets(const ViewModel& view);

/// Rows that the page's list shows at once.
[[nodiscard]] std::size_t rows_shown(const ViewModel& view);
/// Height of one row.
[[nodiscard]] double row_height(const ViewModel& view);
/// Where the page's first row begins.
[[nodiscard]] double rows_top(const ViewModel& view);

}  // namespace sunfleck::window
