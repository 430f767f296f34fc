#pragma once

#include "array_index.h"
#include "sunfleck/assign/period_plan.h"

#include <cstdint>
#include <span>
#include <vector>

namespace sunfleck::assign {

/// Load limits are kept to a millionth of the unit of weight.
inline constexpr double weight_grain = 1e-6;

/// A period problem as flat whole-number arrays: every choice takes amounts of resources that have
/// capacities. Costs are counted in grains (1e-6, coarser only where the sum of all costs
/// times their number passes 1e11), so that sums are exact, ties are ties, and a bound
/// proved here is proved without rounding. The last choice of every item is to be left over: it
/// takes nothing and costs more than all other items can ever save, so that the fewest are left
/// over.
struct ChoiceTable {
    struct Use {
        std::int32_t resource = 0;
        std::int64_t amount = 0;  ///< below 0: gives
    };

    std::vector<std::int32_t> first_choice{0};  ///< per item, one more at the end
    std::vector<std::int64_t> cost;             ///< per choice, in grains
    std::vector<std::int32_t> source;           ///< per choice: index in Item::choices, or -1
    std::vector<std::int32_t> first_use{0};     ///< per choice, one more at the end
    std::vector<Use> uses;                      ///< cells first, then loads
    std::vector<std::int64_t> capacity;         ///< per resource: the cells (1 each), the loads;
                                                ///< below 0: so much must be given
    std::int32_t cell_count = 0;
    std::int64_t left_over_cost = 0;
    double grain = 1e-6;  ///< cost of one grain

    [[nodiscard]] std::int32_t item_count() const {
        return static_cast<std::int32_t>(first_choice.size()) - 1;
    }
    [[nodiscard]] std::int32_t choice_count() const {
        return static_cast<std::int32_t>(cost.size());
    }
    [[nodiscard]] std::int32_t resource_count() const {
        return static_cast<std::int32_t>(capacity.size());
    }
    [[nodiscard]] std::int32_t begin(std::int32_t item) const { return first_choice[at(item)]; }
    [[nodiscard]] std::int32_t end(std::int32_t item) const { return first_choice[at(item) + 1]; }
    /// The choice of being left over.
    [[nodiscard]] std::int32_t left_over(std::int32_t item) const { return end(item) - 1; }
    [[nodiscard]] std::span<const Use> uses_of(std::int32_t choice) const {
        const std::size_t first = at(first_use[at(choice)]);
        return std::span(uses).subspan(first, at(first_use[at(choice) + 1]) - first);
    }
};

/// Checks the problem (a broken one is the caller's bug) and flattens it. Choices that are too
/// heavy for their load limit even alone are dropped.
[[nodiscard]] ChoiceTable choice_table(const PeriodProblem& problem);
/// The same as part of something larger whose plans add up at most `cost_count` costs to at most
/// `greatest_total`: being left over costs more than that.
[[nodiscard]] ChoiceTable choice_table(const PeriodProblem& problem, double greatest_total,
                                       std::int64_t cost_count);
/// Changes the costs of all choices but being left over, and makes that dearer where it must be.
void set_costs(ChoiceTable& table, std::span<const std::int64_t> cost);

/// True where every choice covers at most one cell: then cells alone make an assignment problem.
[[nodiscard]] bool is_matching(const ChoiceTable& table);

/// Total cost in grains of one choice per item.
[[nodiscard]] std::int64_t total_cost(const ChoiceTable& table,
                                      std::span<const std::int32_t> choice_of_item);

/// True where no resource is used beyond its capacity.
[[nodiscard]] bool fits(const ChoiceTable& table, std::span<const std::int32_t> choice_of_item);

/// Per resource: the mean size of the amounts of its uses (1 where unused). Prices are kept per
/// this much, so that a load's price compares with a cell's.
[[nodiscard]] std::vector<double> mean_amounts(const ChoiceTable& table);

}  // namespace sunfleck::assign
