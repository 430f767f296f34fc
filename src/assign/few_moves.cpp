#include "sunfleck/assign/few_moves.h"

#include "array_index.h"
#include "branch_search.h"
#include "choice_table.h"
#include "period_report.h"
#include "sunfleck/base/require.h"

#include <algorithm>
#include <cstddef>

namespace sunfleck::assign {
namespace {

void require_plan(const PeriodProblem& problem, std::span<const std::int32_t> plan) {
    SUNFLECK_REQUIRE(plan.size() == problem.items.size(), "a plan has one choice per item");
    for (std::size_t i = 0; i < plan.size(); ++i) {
        SUNFLECK_REQUIRE(
            plan[i] >= -1 && plan[i] < static_cast<std::int32_t>(problem.items[i].choices.size()),
            "a plan's choices exist");
    }
}

/// The table with lifts as one more resource, and without the choices that `towards` rules out.
ChoiceTable with_lifts(const ChoiceTable& table, std::span<const std::int32_t> before,
                       std::int32_t most_lifts, std::span<const std::int32_t> towards) {
    ChoiceTable counted;
    counted.cell_count = table.cell_count;
    counted.left_over_cost = table.left_over_cost;
    counted.grain = table.grain;
    counted.capacity = table.capacity;
    const std::int32_t lifts = table.resource_count();
    counted.capacity.push_back(most_lifts);
    for (std::int32_t item = 0; item < table.item_count(); ++item) {
        for (std::int32_t c = table.begin(item); c < table.end(item); ++c) {
            const std::int32_t source = table.source[at(c)];
            const bool is_move = source >= 0 && source != before[at(item)];
            if (is_move && !towards.empty() && source != towards[at(item)]) continue;
            const auto uses = table.uses_of(c);
            counted.uses.insert(counted.uses.end(), uses.begin(), uses.end());
            if (is_move) counted.uses.push_back({lifts, 1});
            counted.cost.push_back(table.cost[at(c)]);
            counted.source.push_back(source);
            counted.first_use.push_back(static_cast<std::int32_t>(counted.uses.size()));
        }
        counted.first_choice.push_back(counted.choice_count());
    }
    return counted;
}

}  // namespace

std::int32_t lift_count(std::span<const std::int32_t> before, std::span<const std::int32_t> after) {
    SUNFLECK_REQUIRE(before.size() == after.size(), "both plans are of the same items");
    std::int32_t count = 0;
    for (std::size_t i = 0; i < before.size(); ++i) {
        if (after[i] >= 0 && after[i] != before[i]) ++count;
    }
    return count;
}

FewMoves best_moves(const PeriodProblem& problem, std::span<const std::int32_t> before,
                    std::int32_t most_lifts, std::span<const std::int32_t> towards,
                    const PeriodEffort& effort) {
    require_plan(problem, before);
    if (!towards.empty()) require_plan(problem, towards);
    SUNFLECK_REQUIRE(most_lifts >= 0, "a number of lifts is not negative");
    const ChoiceTable table = with_lifts(choice_table(problem), before, most_lifts, towards);
    const ProvedPlan proved = least_cost_plan(table, {effort.prices, effort.branching});
    FewMoves few;
    few.plan = period_report(problem, table, proved);
    few.lifts = lift_count(before, few.plan.choice_of_item);
    few.price_of_a_lift = proved.price.back() * table.grain;
    return few;
}

}  // namespace sunfleck::assign
