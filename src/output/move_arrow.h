#pragma once

#include "sunfleck/output/canvas.h"

namespace sunfleck::output {

/// A pot's way from its bead to its new spot.
struct MoveArrow {
    SheetPoint from;
    SheetPoint to;
    int number = 1;
    bool is_swap = false;    ///< bulges more, so that two ways form a lens
    bool needs_two = false;  ///< two people: a double line
};

/// The middle of the curve: bulged to the right of the way by 0.16 of its length, in a swap 0.30.
[[nodiscard]] SheetPoint arrow_control(const MoveArrow& arrow);

/// The curve and its head; beads are drawn after all arrows.
void draw_move_arrow(Canvas& canvas, const MoveArrow& arrow, const Palette& palette = morning);
/// A disc with the move's number.
void draw_bead(Canvas& canvas, SheetPoint centre, int number, const Palette& palette = morning);

}  // namespace sunfleck::output
