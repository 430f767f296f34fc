#pragma once

#include "sunfleck/geometry/garden.h"
#include "sunfleck/output/canvas.h"
#include "window/view_model.h"

#include <cstddef>
#include <optional>

/// Draw the window's four parts. Each draws on a canvas whose (0, 0) is the part's own corner; all
/// boxes are the window's.
namespace sunfleck::window {

void paint_sky(output::Canvas& canvas, const ViewModel& view, const output::Palette& palette);
void paint_page(output::Canvas& canvas, const ViewModel& view, const output::Palette& palette);
void paint_path(output::Canvas& canvas, const ViewModel& view, const output::Palette& palette);

/// Keeps the garden's pieces from one picture to the next.
class GroundPainter {
  public:
    void paint(output::Canvas& canvas, const ViewModel& view, const output::Palette& palette);

  private:
    std::optional<geometry::Garden> garden_;  ///< nothing when it cannot be built
    std::optional<std::size_t> revision_;
};

}  // namespace sunfleck::window
