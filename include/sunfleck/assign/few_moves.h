#pragma once

#include "sunfleck/assign/period_plan.h"

#include <cstdint>
#include <span>
#include <vector>

/// Which moves matter most when only a few can be done.
namespace sunfleck::assign {

struct FewMoves {
    /// `cost`, `bound` and `is_optimal` are over all plans with at most so many lifts: no other
    /// such plan beats this one by more than cost - bound.
    PeriodPlan plan;
    std::int32_t lifts = 0;        ///< items off the choice they had before, and placed
    double price_of_a_lift = 0.0;  ///< about what one more lift would save; 0 where none is lacking
};

/// The best plan with at most `most_lifts` items on another choice than before.
///
/// `before[i]` is the index of the choice where item i stands, or -1 where it stands nowhere or
/// its place is not among its choices: putting it anywhere is then a lift. Where there are not
/// enough lifts for all of those, the fewest are left over. `towards`, if not empty, is a plan
/// (index of choice per item): then every item is either where it was or where that plan puts it.
///
/// Method: a price per lift, raised until so few items are worth it (the bound is least cost with
/// priced lifts, less price times `most_lifts`), then branch and bound as in solve_period. Where
/// each choice covers one cell and no load binds, the prices are exact.
[[nodiscard]] FewMoves best_moves(const PeriodProblem& problem,
                                  std::span<const std::int32_t> before, std::int32_t most_lifts,
                                  std::span<const std::int32_t> towards = {},
                                  const PeriodEffort& effort = {});

/// How many items stand on another choice than before; those left over are not counted.
[[nodiscard]] std::int32_t lift_count(std::span<const std::int32_t> before,
                                      std::span<const std::int32_t> after);

}  // namespace sunfleck::assign
