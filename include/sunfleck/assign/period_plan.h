#pragma once

#include <cstdint>
#include <limits>
#include <span>
#include <vector>

/// Who stands where in one period, on plain arrays: items take choices, choices use resources.
namespace sunfleck::assign {

/// One way to put an item: it costs something and uses a range of cells and one load.
struct Choice {
    double cost = 0.0;                ///< finite, >= 0
    std::vector<std::int32_t> cells;  ///< cells it covers, ascending; each holds one item
    std::int32_t load = -1;           ///< index of the load limit it counts against, or -1
};

struct Item {
    std::vector<Choice> choices;  ///< absent choices are simply not listed
    double weight = 0.0;          ///< counted against the load limit of the choice taken
};

struct PeriodProblem {
    std::vector<Item> items;
    std::int32_t cell_count = 0;
    std::vector<double> load_limits;
};

struct PeriodPlan {
    bool is_feasible = false;
    std::vector<std::int32_t> choice_of_item;  ///< index into Item::choices; -1 where none fits
    double cost = 0.0;
    double bound = 0.0;                  ///< proved: no plan costs less
    bool is_optimal = false;             ///< cost proved least
    std::vector<double> cell_price;      ///< >= 0, 0 on cells nobody wants
    std::vector<double> load_price;      ///< >= 0, per unit of weight; 0 where no limit binds
    std::vector<std::int32_t> unplaced;  ///< items left over when there is no room for all
};

/// How long a search may take, counted in choices looked at, not in time, so that equal input
/// gives equal output. About 10^8 to a second.
struct PeriodEffort {
    std::int64_t prices = 100'000'000;
    std::int64_t branching = 200'000'000;
};

/// The least-cost plan: proved optimal where every choice covers one cell and no load binds, and
/// wherever the search below closes the gap; else with bound and gap. Deterministic; ties are
/// broken on cost rounded to 1e-6, then on the item's order and the choice's order.
///
/// Where there is no room for all, the fewest are left over, and of such plans the cheapest is
/// taken; `bound` then holds for plans that leave over no more than this one, and prices contain
/// the price of being left over.
[[nodiscard]] PeriodPlan solve_period(const PeriodProblem& problem);
[[nodiscard]] PeriodPlan solve_period(const PeriodProblem& problem, const PeriodEffort& effort);

}  // namespace sunfleck::assign
