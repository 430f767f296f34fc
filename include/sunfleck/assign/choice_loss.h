#pragma once

#include "sunfleck/assign/period_plan.h"

#include <cstdint>
#include <vector>

/// Why here and not there: what a plan loses when one item must take another choice.
namespace sunfleck::assign {

struct ChoiceLoss {
    /// False where the item could take the choice only if more items were left over; the numbers
    /// below then compare costs of plans of different items and mean little.
    bool is_possible = false;
    double own_change = 0.0;       ///< the item's own cost there, less its cost now
    double others_change = 0.0;    ///< what the others' costs rise by in `forced`
    double at_least = 0.0;         ///< proved: every plan with the choice costs so much more, >= 0
    double at_most = 0.0;          ///< `forced` costs so much more
    bool is_equally_good = false;  ///< the loss is within the plans' own gaps (at least 1e-6)
    PeriodPlan forced;             ///< the best plan found with the choice
};

/// Solves the period again with the item on that choice. Exact (at_least == at_most but for 1e-6
/// per item) where both plans are proved optimal.
///
/// `plan` is a plan of the problem from solve_period, and the item is placed in it.
[[nodiscard]] ChoiceLoss loss_if(const PeriodProblem& problem, const PeriodPlan& plan,
                                 std::int32_t item, std::int32_t choice,
                                 const PeriodEffort& effort = {});

/// For each choice of the item at once, without solving again: a proved lower bound on the loss,
/// from the plan's prices (how much dearer the choice is than the item's cheapest, prices
/// included, less the gap at these prices). Weaker than loss_if; 0 for near twins of the place
/// the item has. Empty where the plan leaves items over.
[[nodiscard]] std::vector<double> losses_at_least(const PeriodProblem& problem,
                                                  const PeriodPlan& plan, std::int32_t item);

}  // namespace sunfleck::assign
