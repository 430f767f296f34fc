#pragma once

#include "sunfleck/exposure/exposure.h"
#include "sunfleck/scene/scene.h"
#include "sunfleck/scene/seasons.h"
#include "sunfleck/scene/spots.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace sunfleck::placement {

/// The named parts of a pot's harm at a spot, in lost-growth-day equivalents over the period.
struct HarmParts {
    double hot_sun = 0.0;
    double light_deficit = 0.0;
    double pot_wall = 0.0;
    double jump = 0.0;
    double drying = 0.0;  ///< 0 until drying is computed
    [[nodiscard]] double total() const {
        return hot_sun + light_deficit + pot_wall + jump + drying;
    }
};

/// The figures a reason may quote, equal to the exposure table's.
struct SpotFigures {
    double full_min = 0.0;
    double hot_full_min = 0.0;
    double filtered_min = 0.0;
    double effective_min = 0.0;
    double wall_hot_full_min =
        0.0;                    ///< pot wall: hottest side's full sun in the hot hours and after
    double light_kwh_m2 = 0.0;  ///< clear-day sun energy on the level, per day
};

/// Why a pot may not stand at a spot.
enum class Refusal { none, does_not_fit, pinned_elsewhere, excluded, too_heavy, too_tall };

struct HarmCell {
    Refusal refusal = Refusal::none;
    HarmParts parts;
    SpotFigures figures;
};

/// Pots x spots for one period. Batches are expanded: one row per single pot.
struct HarmTable {
    std::string season;
    scene::DateRange dates;
    std::vector<std::size_t> pot_of_row;  ///< index into scene.pots
    std::vector<scene::Spot> spots;
    std::vector<HarmCell> cells;                         ///< row-major: row * spots.size() + spot
    std::vector<std::optional<std::size_t>> start_spot;  ///< per row: where it stands now
    [[nodiscard]] const HarmCell& at(std::size_t row, std::size_t spot) const {
        return cells[row * spots.size() + spot];
    }
};

}  // namespace sunfleck::placement
