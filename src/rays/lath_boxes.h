#pragma once

#include "sunfleck/geometry/piece.h"

#include <vector>

namespace sunfleck::rays {

/// Each lath of a panel as a solid of its own.
[[nodiscard]] std::vector<geometry::ConvexSolid> lath_boxes(const geometry::LathBody& laths);

/// The panel's middle plane as far as its mean shades it: half a pitch beyond the outer axes.
[[nodiscard]] geometry::Sheet lath_panel_sheet(const geometry::LathBody& laths);

}  // namespace sunfleck::rays
