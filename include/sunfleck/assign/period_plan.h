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
    double bound = 0.0;       ///< proved: no plan costs less
    bool is_optimal = false;  ///< cost proved least
    /// >= 0, 0 on cells that stay free. Where every choice covers one cell and no load binds: what
    /// one more cell like it would save. Else the prices that prove the bound before branching.
    std::vector<double> cell_price;
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
/// wherever the search below closes the gap; else with bound and gap. Costs count rounded to 1e-6,
/// weights and load limits likewise (coarser only where the sum of all costs times their number
/// passes 1e11). The same input gives the same plan; where every choice covers one cell and no
/// load binds, it is of all equally cheap ones the one that gives the first item its earliest
/// choice, then the second item, and so on.
///
/// Method: shortest augmenting paths (Jonker and Volgenant 1987) for single cells; prices on cells
/// and loads (Lagrangian bound), construction and local search at these prices, and branch and
/// bound with choices closed by price for the rest.
///
/// Where there is no room for all, the fewest are left over, and of such plans the cheapest is
/// taken; `bound` then holds for plans that leave over no more than this one, and prices contain
/// the price of being left over.
[[nodiscard]] PeriodPlan solve_period(const PeriodProblem& problem);
[[nodiscard]] PeriodPlan solve_period(const PeriodProblem& problem, const PeriodEffort& effort);

}  // namespace sunfleck::assign
