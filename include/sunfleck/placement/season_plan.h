#pragma once

#include "sunfleck/placement/harm_table.h"
#include "sunfleck/scene/scene.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace sunfleck::placement {

/// Who stands where in one period. Harm, moves and bound are in growth days.
struct SeasonPlan {
    Standing spot_of_row;     ///< per row of the table; nothing where there is no room
    double harm_total = 0.0;  ///< of all placed pots, jumps included
    double move_total = 0.0;  ///< effort of the moves from where they stood
    double objective = 0.0;   ///< harm_total + move_total: what the plan makes least
    double bound = 0.0;       ///< proved: no plan that places as many pots has a lower objective
    bool is_optimal = false;  ///< the objective is proved least
    int lifts = 0;            ///< pots that leave the spot where they stood
    double moved_kg = 0.0;
    std::vector<std::size_t> free_spots;  ///< covered by no pot, ascending
    /// 0 where the objective is proved least, else (objective - bound) / objective.
    [[nodiscard]] double gap_fraction() const;
};

struct PlanOptions {
    /// A row that must stand at a spot, whatever it costs; the spot must not be refused to it.
    struct Forced {
        std::size_t row = 0;
        std::size_t spot = 0;
    };
    std::optional<Forced> forced;
    std::optional<int> lifts;  ///< at most so many pots leave their spot
    /// Pots that stand somewhere stay there; only the others are placed.
    bool keeps_standing = false;
};

/// The plan with the least harm and moving effort. Proved best where each pot takes one spot and no
/// load limit binds, and wherever the search closes the gap; else with its bound. With `lifts`, the
/// best found with so few, and a bound on every plan with so few; a pot on a spot that its owner
/// has ruled out goes first, and stays only for want of lifts. Where there is no room for all, as
/// few as possible are left out, newcomers first.
/// The same table gives the same plan; a plan taken as the standing places is kept.
[[nodiscard]] SeasonPlan plan_season(const scene::Scene& scene, const HarmTable& table,
                                     const PlanOptions& options = {});

/// Harm of the period were nothing moved; pots that stand nowhere count where the plan puts them.
[[nodiscard]] double harm_unmoved(const HarmTable& table, const Standing& plan);

}  // namespace sunfleck::placement
