#pragma once

#include "sunfleck/output/canvas.h"
#include "sunfleck/output/plan_view.h"

#include <span>
#include <string>

/// North, measure and legend.
namespace sunfleck::output {

/// A leaf whose tip points north; `north` is a unit vector of the sheet.
void draw_north_leaf(Canvas& canvas, SheetPoint centre, SheetPoint north,
                     const Palette& palette = morning);

/// The pole's length: of 1, 2, 5, 10, 20, 50 ... m the longest under 200 px, at least 1 m.
[[nodiscard]] double ranging_pole_m(double pixels_per_m);
/// A pole in black and white stretches with its metres over it. `left` is its foot's left end.
void draw_ranging_pole(Canvas& canvas, SheetPoint left, double pixels_per_m,
                       const Palette& palette = morning);

enum class Swatch {
    full,
    filtered,       ///< bars, as on a ring
    filtered_area,  ///< hatched, as on a sheet
    shade,          ///< a thin track
    shade_area,
    night,
    shadow,
    woven_shadow,
    hot_hours,   ///< a clay line
    hot_dashes,  ///< a dashed one
    hot_box,
    noon_dots,
    net_strip,
    content,
    scorches,
    gets_hot,
    too_dark,
    moved,
    free_spot,
};

struct LegendEntry {
    Swatch swatch = Swatch::full;
    std::string words;
};

/// Height that the entries take in lines of that width.
[[nodiscard]] double legend_height(const Canvas& canvas, std::span<const LegendEntry> entries,
                                   double width);
void draw_legend(Canvas& canvas, SheetPoint at, double width, std::span<const LegendEntry> entries,
                 const Palette& palette = morning);

}  // namespace sunfleck::output
