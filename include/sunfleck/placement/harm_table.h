#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/exposure/exposure.h"
#include "sunfleck/placement/harm_model.h"
#include "sunfleck/scene/scene.h"
#include "sunfleck/scene/seasons.h"
#include "sunfleck/scene/spots.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Every pot at every spot over one period: may it stand there, and what harm would it take. Plan,
/// moves and reasons see only this table.
namespace sunfleck::placement {

/// The named parts of a pot's harm at a spot, in lost-growth-day equivalents over the period; see
/// harm_model.h.
struct HarmParts {
    double hot_sun = 0.0;
    double light_deficit = 0.0;
    double pot_wall = 0.0;
    double jump = 0.0;    ///< from where it stands now; 0 when it stands nowhere
    double drying = 0.0;  ///< 0 until drying is computed
    [[nodiscard]] double total() const {
        return hot_sun + light_deficit + pot_wall + jump + drying;
    }
    /// What it would be without the step from where it stands.
    [[nodiscard]] double without_jump() const { return total() - jump; }
};

/// The figures a reason may quote: means over the period's days. Minutes are the exposure
/// table's own, of the pot's receiver at the spot.
struct SpotFigures {
    double full_min = 0.0;
    double filtered_min = 0.0;
    double effective_min = 0.0;
    double hot_full_min = 0.0;
    double hot_effective_min = 0.0;
    /// Full sun on the pot's west side; nothing when the dates are not hot.
    std::optional<double> west_wall_full_min;
    double light_kwh_m2 = 0.0;  ///< clear-day light that comes with the sun, a day
    double light_share = 0.0;   ///< the same, of what an open sky gives
};

/// Why a pot may not stand at a spot.
enum class Refusal {
    none,
    does_not_fit,
    too_tall,          ///< for the tier above
    too_heavy,         ///< for what the tier may carry
    excluded,          ///< by its owner
    pinned_elsewhere,  ///< it stays where it stands
    unliftable,        ///< more than all hands may lift: it stays where it stands
};

struct HarmCell {
    Refusal refusal = Refusal::none;
    std::size_t covered = 0;     ///< index into HarmTable::footprints
    std::size_t light_spot = 0;  ///< the spot whose sun the pot gets: the middle of those it covers
    HarmParts parts;             ///< 0 where the pot is too big, too tall or too heavy for the spot
    SpotFigures figures;         ///< likewise
};

/// One single pot.
struct HarmRow {
    std::size_t pot = 0;                    ///< index into scene.pots
    int copy = 1;                           ///< from 1, within its batch
    std::optional<std::size_t> start_spot;  ///< where it stands
    double move_cost = 0.0;                 ///< growth days, paid when it leaves its start spot
    double full_jump = 0.0;                 ///< growth days of a step from no light to all
    double bears_hot_h = 0.0;               ///< hot sun it bears, in the middle of the period
    double wanted_sun_h = 0.0;   ///< mean sun hours it wants, in the middle of the period
    bool wants_all_sun = false;  ///< the period ripens buds and wood: more is better
    bool may_move = true;        ///< false: pinned, or too heavy to lift
};

/// Pots x spots for one period. Batches are expanded: one row per single pot.
struct HarmTable {
    std::string season;
    scene::DateRange dates;
    int day_count = 0;
    HarmWeights weights;
    std::vector<HarmRow> rows;
    std::vector<scene::Spot> spots;
    std::vector<std::vector<std::size_t>> footprints;  ///< spots covered, ascending; see HarmCell
    std::vector<HarmCell> cells;                       ///< row-major: row * spots.size() + spot

    [[nodiscard]] const HarmCell& at(std::size_t row, std::size_t spot) const {
        return cells[row * spots.size() + spot];
    }
    /// The spots that a row's pot takes up when it stands at a spot.
    [[nodiscard]] const std::vector<std::size_t>& covered(std::size_t row, std::size_t spot) const {
        return footprints[at(row, spot).covered];
    }
    /// The step in light between two spots, growth days.
    [[nodiscard]] double jump(std::size_t row, std::size_t from, std::size_t to) const;
    /// Harm and, when that is not where the pot stands, the move.
    [[nodiscard]] double cost(std::size_t row, std::size_t spot) const;
};

/// Where each single pot stands: rows of a table in its order (pots in scene order, a batch's
/// copies one after another), a spot's index or nothing.
using Standing = std::vector<std::optional<std::size_t>>;

/// Where the scene says that the pots stand. A batch stands at its spot and on along the bench.
[[nodiscard]] Standing standing_now(const scene::Scene& scene,
                                    const std::vector<scene::Spot>& spots);

/// Height of a pot's wall points above the top: the nearer of 0.03 and 0.08 m to half its height.
[[nodiscard]] double wall_receiver_height_m(const scene::Pot& pot);

/// The points whose sun the table of those dates needs: at each spot the crown heights of the pots
/// that may stand or do stand there, and, where the dates are hot, the west side of their walls.
/// Free of doubles, by spot.
[[nodiscard]] std::vector<exposure::ReceiverRequest> receivers_needed(
    const scene::Scene& scene, const std::vector<scene::Spot>& spots, scene::DateRange dates);

/// What a table is made for.
struct HarmPeriod {
    std::string season;  ///< its name, or words for the dates
    scene::DateRange dates;
};

/// The table of a period. `exposure` holds at least receivers_needed() over the same dates;
/// `standing` is where the pots stand before it. Fails when the scene's weights are wrong.
[[nodiscard]] Result<HarmTable> make_harm_table(const scene::Scene& scene,
                                                const std::vector<scene::Spot>& spots,
                                                const HarmPeriod& period,
                                                const exposure::ExposureTable& exposure,
                                                const Standing& standing);

/// The same table for pots that stand elsewhere before the period.
[[nodiscard]] HarmTable standing_at(const scene::Scene& scene, const HarmTable& table,
                                    const Standing& standing);

}  // namespace sunfleck::placement
