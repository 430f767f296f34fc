#pragma once

#include "window/input.h"

namespace sunfleck::window {

/// Where the window's four parts lie, in logical pixels: sky above, ground in the middle, page
/// beside it, path below.
struct Regions {
    SheetBox sky;
    SheetBox ground;
    SheetBox page;
    SheetBox path;
    bool is_compact = false;  ///< below 1100 x 750
};

/// The smallest window that is laid out; a smaller one shows part of this.
inline constexpr double least_width = 960.0;
inline constexpr double least_height = 600.0;

/// `is_wide`: the page folded out over the ground.
[[nodiscard]] Regions regions_of(double width, double height, bool is_wide);

/// Parts of the sky band.
struct SkyParts {
    SheetBox name;
    SheetBox arch;
    SheetBox strip;
    SheetBox clock;
};
[[nodiscard]] SkyParts sky_parts(const Regions& regions);

}  // namespace sunfleck::window
