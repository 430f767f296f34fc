#pragma once

#include "sunfleck/output/picture.h"
#include "sunfleck/output/placement_report.h"

#include <string>

/// Pictures of plans. Both state the same as the tables, pot by pot and step by step.
namespace sunfleck::output {

/// Now and after side by side: how each pot fares where it stands, and where the plan puts it.
[[nodiscard]] Result<std::string> draw_place(const PlaceAnswer& answer,
                                             const PictureOptions& options);

/// The garden with a numbered arrow for each move, and the steps beside it in the same numbers.
[[nodiscard]] Result<std::string> draw_moves(const MovesAnswer& answer,
                                             const PictureOptions& options);

}  // namespace sunfleck::output
