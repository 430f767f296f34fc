#pragma once

#include "sunfleck/output/canvas.h"

namespace sunfleck::output {

/// Parallel lines, fixed to the sheet so that areas side by side run on into each other.
struct Hatch {
    double pitch = 4.0;
    double line_width = 1.5;
    Colour colour = morning.sun_edge;
    bool falls = false;  ///< lines fall to the right; else they rise
};

/// Fills a path, which lies within `box`, with lines at 45 degrees.
void hatch(Canvas& canvas, const Path& path, const SheetBox& box, const Hatch& hatch);

/// Fills a path within `box` with dots in rows set off against each other.
void dot(Canvas& canvas, const Path& path, const SheetBox& box, double pitch, double radius,
         Colour colour);

}  // namespace sunfleck::output
