#pragma once

#include "sunfleck/scene/scene.h"
#include "sunfleck/scene/spots.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace sunfleck::scene {

/// Which spots pots cover. A pot that is too wide for one cell of a bench takes the next cells of
/// the row too, one too deep for a row the rows behind; the spot it is said to stand at is the
/// first of them (the lowest number).
///
/// Along the row the crown counts at its full width, since crowns never touch (growers' advice,
/// read in several). Across, three quarters of it count: rows are staggered in practice (common
/// practice, no source). A crown may always reach past the ends of its row and the edges of its
/// tier, so it asks for no more cells than there are; the pot itself must stand on the cells. A
/// pot's length lies along the bench. On spots placed by hand and on stands only the pot counts.
class Footprints {
  public:
    explicit Footprints(std::span<const Spot> spots);

    /// The spots that the pot covers when its first cell is `first`, ascending, with room for its
    /// crown; nothing when it does not fit there.
    [[nodiscard]] std::optional<std::vector<std::size_t>> cells_covered(const Pot& pot,
                                                                        std::size_t first) const;
    /// The same for a pot that does stand there, or is pinned there: when the crown finds no room,
    /// the cells under the pot alone. Nothing when not even the pot fits.
    [[nodiscard]] std::optional<std::vector<std::size_t>> cells_held(const Pot& pot,
                                                                     std::size_t first) const;
    /// Where the pot's centre stands in the plan: the middle of its cells.
    [[nodiscard]] Vec2 centre(std::span<const std::size_t> cells) const;

  private:
    struct Need {
        double length_m = 0.0;
        double depth_m = 0.0;
    };
    [[nodiscard]] std::optional<std::vector<std::size_t>> block(std::size_t first, Need pot,
                                                                Need crown) const;

    std::span<const Spot> spots_;
    std::vector<std::optional<std::size_t>> next_;    ///< the next cell of the row
    std::vector<std::optional<std::size_t>> behind_;  ///< the cell of the next row
    std::vector<int> cells_before_;                   ///< how many cells of the row lie before
    std::vector<int> rows_before_;
};

/// Footprints::cells_covered for a single question.
[[nodiscard]] std::optional<std::vector<std::size_t>> cells_covered(const Pot& pot,
                                                                    std::span<const Spot> spots,
                                                                    std::size_t first_spot);

}  // namespace sunfleck::scene
