#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/placement/harm_table.h"
#include "sunfleck/placement/season_plan.h"
#include "sunfleck/scene/scene.h"

#include <cstddef>
#include <optional>

namespace sunfleck::placement {

/// What the whole plan would lose if one pot stood elsewhere. Changes are the other plan's figure
/// less this plan's, in growth days.
struct WhyHere {
    std::size_t row = 0;
    std::size_t spot = 0;     ///< where the plan puts it
    std::size_t instead = 0;  ///< the spot compared with
    double own_harm_change = 0.0;
    double others_harm_change = 0.0;
    int lifts_change = 0;
    double objective_change = 0.0;  ///< harm and moving effort together, of the best other plan
                                    ///< found
    double loss_at_least = 0.0;     ///< proved: every plan with the pot there is worse by so much
    bool is_equally_good = false;   ///< the loss is below 0.005, or below the plan's own gap
    SeasonPlan other;               ///< the best plan with the pot at `instead`
};

/// Compares the plan with the best one that has the row at `instead`; without it, with the best
/// spot on another bench (on the same when there is no other). The plan must be plan_season's of
/// the table and the row must have a place in it. No answer: code "spot_refused" where the pot may
/// not stand at `instead`, "spot_held" where another pot would then have no place (it is pinned
/// there), "no_other_spot" where the pot may stand nowhere else.
[[nodiscard]] Result<WhyHere> why_here(const scene::Scene& scene, const HarmTable& table,
                                       const SeasonPlan& plan, std::size_t row,
                                       std::optional<std::size_t> instead);

}  // namespace sunfleck::placement
