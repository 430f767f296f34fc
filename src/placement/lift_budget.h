#pragma once

#include "placement/plan_problem.h"
#include "sunfleck/placement/harm_table.h"

namespace sunfleck::placement {

/// A plan with at most so many lifts.
struct BudgetAnswer {
    Standing standing;
    double bound = 0.0;  ///< on the objective of every plan that places as many pots with as few
                         ///< lifts
    bool is_optimal = false;
};

/// The best plan found with at most `lifts` lifts.
///
/// A price on each lift turns the limit into costs: the plan that is cheapest at a price is the
/// best of all with so many lifts, and cost - price x (limit - lifts) bounds every plan within
/// the limit (Lagrangian relaxation of one side constraint). The price is found by secants over
/// the plans met, which ends after finitely many because there are finitely many slopes. Where no
/// price gives just so many lifts, the cheapest plan below the limit is completed with whole
/// groups of moves from the plans above it, then with single moves and swaps.
/// Nothing when no plan within the limit places as many pots as can be placed.
[[nodiscard]] std::optional<BudgetAnswer> plan_within(const PlanProblem& problem, int lifts);

}  // namespace sunfleck::placement
