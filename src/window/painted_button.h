#pragma once

#include "sunfleck/output/canvas.h"
#include "window/targets.h"

namespace sunfleck::window {

/// A button as it lies: its words in bold, its key softly behind them.
void paint_button(output::Canvas& canvas, const Target& target, const output::Palette& palette);

}  // namespace sunfleck::window
