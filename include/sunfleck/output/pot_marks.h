#pragma once

#include "sunfleck/output/canvas.h"
#include "sunfleck/placement/reasons.h"
#include "sunfleck/scene/scene.h"

#include <string_view>

/// Pots and how they fare: shape first, colour second.
namespace sunfleck::output {

/// Content: ring. Scorches: triangle. Pot gets hot: diamond. Too dark: square. `radius` is half
/// the mark's width.
void draw_pot_state(Canvas& canvas, SheetPoint centre, double radius, placement::PotState state,
                    const Palette& palette = morning);

/// A pot from above with its crown; `along` is a unit vector of the sheet along the bench.
void draw_pot(Canvas& canvas, SheetPoint centre, SheetPoint along, const scene::Pot& pot,
              double pixels_per_m, const Palette& palette = morning);

/// A plant label with one pointed end, the code on it; its left middle at `at`. Gives its width.
double draw_plant_label(Canvas& canvas, SheetPoint at, std::string_view code,
                        const Palette& palette = morning);

}  // namespace sunfleck::output
