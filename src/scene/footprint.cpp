#include "sunfleck/scene/footprint.h"

#include "sunfleck/base/require.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace sunfleck::scene {
namespace {

/// Sizes are measured to the millimetre at best; a pot of the cell's own size fits.
constexpr double fit_slack_m = 1e-6;
constexpr double crown_share_across = 0.75;

bool is_on_one_tier(const Spot& a, const Spot& b) {
    return a.holder == b.holder && a.tier == b.tier && !a.is_explicit && !b.is_explicit;
}

/// Straight behind: the centres as far apart as the rows are deep.
bool stands_behind(const Spot& front, const Spot& back) {
    const double rows_m = 0.5 * (front.depth_m + back.depth_m);
    return std::abs(length(back.position - front.position) - rows_m) < fit_slack_m;
}

/// How many cells of that size hold a length; at least one.
int cells_for(double length_m, double cell_m) {
    if (!(cell_m > 0.0)) return length_m > fit_slack_m ? 1000 : 1;
    const double cells = std::ceil((length_m - fit_slack_m) / cell_m);
    return static_cast<int>(std::clamp(cells, 1.0, 1000.0));
}

/// The first `count` cells from `from` along `links`; nothing when the chain is shorter.
std::optional<std::vector<std::size_t>> chain(const std::vector<std::optional<std::size_t>>& links,
                                              std::size_t from, int count) {
    std::vector<std::size_t> cells{from};
    while (static_cast<int>(cells.size()) < count) {
        const auto next = links[cells.back()];
        if (!next) return std::nullopt;
        cells.push_back(*next);
    }
    return cells;
}

/// How many cells follow in the chain.
int cells_after(const std::vector<std::optional<std::size_t>>& links, std::size_t from) {
    int count = 0;
    for (auto next = links[from]; next; next = links[*next]) ++count;
    return count;
}

}  // namespace

Footprints::Footprints(std::span<const Spot> spots)
    : spots_(spots),
      next_(spots.size()),
      behind_(spots.size()),
      cells_before_(spots.size(), 0),
      rows_before_(spots.size(), 0) {
    // Holder, tier and row of a cell lead to the cells of that row.
    std::map<std::tuple<int, int, int>, std::vector<std::size_t>> rows;
    for (std::size_t i = 0; i < spots.size(); ++i) {
        if (!spots[i].is_explicit) {
            rows[{spots[i].holder, spots[i].tier, spots[i].row}].push_back(i);
        }
    }
    for (std::size_t i = 0; i < spots.size(); ++i) {
        const Spot& spot = spots[i];
        if (i + 1 < spots.size() && is_on_one_tier(spot, spots[i + 1]) &&
            spots[i + 1].row == spot.row && spots[i + 1].column == spot.column + 1) {
            next_[i] = i + 1;
            cells_before_[i + 1] = cells_before_[i] + 1;
        }
        const auto row_behind = rows.find({spot.holder, spot.tier, spot.row + 1});
        if (spot.is_explicit || row_behind == rows.end()) continue;
        for (const std::size_t back : row_behind->second) {
            if (!stands_behind(spot, spots[back])) continue;
            behind_[i] = back;
            rows_before_[back] = rows_before_[i] + 1;
        }
    }
}

std::optional<std::vector<std::size_t>> Footprints::block(std::size_t first, Need pot,
                                                          Need crown) const {
    SUNFLECK_REQUIRE(first < spots_.size(), "the first cell is a spot");
    const Spot& spot = spots_[first];
    // The crown asks for no more cells than the row and the tier have.
    const int columns = cells_before_[first] + 1 + cells_after(next_, first);
    const int rows = rows_before_[first] + 1 + cells_after(behind_, first);
    const int across = std::max(cells_for(pot.length_m, spot.length_m),
                                std::min(cells_for(crown.length_m, spot.length_m), columns));
    const int deep = std::max(cells_for(pot.depth_m, spot.depth_m),
                              std::min(cells_for(crown.depth_m, spot.depth_m), rows));
    const auto front = chain(next_, first, across);
    if (!front) return std::nullopt;
    std::vector<std::size_t> cells;
    for (const std::size_t cell : *front) {
        const auto column = chain(behind_, cell, deep);
        if (!column) return std::nullopt;
        cells.insert(cells.end(), column->begin(), column->end());
    }
    std::sort(cells.begin(), cells.end());
    return cells;
}

std::optional<std::vector<std::size_t>> Footprints::cells_covered(const Pot& pot,
                                                                  std::size_t first) const {
    return block(first, {pot.pot_length_m, pot.pot_width_m},
                 {pot.crown_width_m, crown_share_across * pot.crown_width_m});
}

std::optional<std::vector<std::size_t>> Footprints::cells_held(const Pot& pot,
                                                               std::size_t first) const {
    if (auto cells = cells_covered(pot, first)) return cells;
    return block(first, {pot.pot_length_m, pot.pot_width_m}, {});
}

Vec2 Footprints::centre(std::span<const std::size_t> cells) const {
    SUNFLECK_REQUIRE(!cells.empty(), "a pot covers at least one cell");
    Vec2 sum;
    for (const std::size_t cell : cells) sum = sum + spots_[cell].position;
    return (1.0 / static_cast<double>(cells.size())) * sum;
}

std::optional<std::vector<std::size_t>> cells_covered(const Pot& pot, std::span<const Spot> spots,
                                                      std::size_t first_spot) {
    return Footprints(spots).cells_covered(pot, first_spot);
}

}  // namespace sunfleck::scene
