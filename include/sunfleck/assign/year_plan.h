#pragma once

#include "sunfleck/assign/period_plan.h"

#include <cstdint>
#include <functional>
#include <vector>

/// Who stands where in period after period, when moving costs something.
namespace sunfleck::assign {

/// Somewhere to stand, the same in all periods: moving is going from one place to another. Items
/// of different widths that start at one cell have different places.
struct Place {
    std::vector<std::int32_t> cells;  ///< ascending; each cell holds one item per period
    std::int32_t load = -1;           ///< index of the load limit it counts against, or -1
};

struct PlaceCost {
    std::int32_t place = 0;
    double cost = 0.0;  ///< harm over the period, finite, >= 0
};

struct YearItem {
    double weight = 0.0;              ///< against the load limit of the place
    double move_effort = 0.0;         ///< cost of one move, finite, >= 0
    std::int32_t initial_place = -1;  ///< where it stands before the first period; -1 nowhere yet
    /// Per period: the places it may take, each at most once; a forbidden one is not listed.
    std::vector<std::vector<PlaceCost>> places_of_period;
};

struct YearProblem {
    std::vector<YearItem> items;
    std::vector<Place> places;
    std::int32_t cell_count = 0;
    std::int32_t period_count = 0;
    std::vector<double> load_limits;  ///< the same in every period
    /// What the change itself costs beyond the effort, >= 0; not asked where from == to or where
    /// the item stood nowhere. Empty: nothing. Must obey c(a, c) <= c(a, b) + c(b, c), or a plan
    /// may be changed again by planning from it.
    std::function<double(std::int32_t period, std::int32_t item, std::int32_t from,
                         std::int32_t to)>
        step_cost;
};

struct YearPlan {
    bool is_feasible = false;  ///< everything stands somewhere in every period
    /// Per period and item; -1 where it is left over (then it moves on from where it stood last).
    std::vector<std::vector<std::int32_t>> place_of_item;
    std::vector<double> harm_of_period;
    std::vector<double> move_cost_of_period;  ///< of getting there from the period before
    std::vector<std::int32_t> lifts_of_period;
    double cost = 0.0;            ///< all harm and moves
    double bound = 0.0;           ///< proved: no plan of all periods costs less
    bool is_optimal = false;      ///< cost proved least, to a millionth per item and period
    std::int32_t lifts = 0;       ///< first placings of items that stood nowhere are none
    std::int32_t iterations = 0;  ///< price steps taken for the bound
};

/// How far to go; counts, not time.
struct YearEffort {
    PeriodEffort period;    ///< for each solve of one period
    int sweeps = 6;         ///< of dual ascent, period by period (single cells without loads)
    int price_steps = 300;  ///< of the subgradient after it
    int polish_rounds = 20;
    double stop_at_gap = 0.0;  ///< share of the cost; ends as soon as the gap is proved no larger
};

/// Period after period, each the best from where things stand then, blind to what comes. Where
/// there is no room for all, the fewest are left over. A move costs at least a millionth, so that
/// nothing is moved for nothing.
///
/// `bound` is the Lagrangian bound at the cell prices of each period on its own: every item's
/// cheapest priced year, moves included, less all prices. It is at least the sum of the periods'
/// optima with free moves. step_cost is left out of it (it only adds).
///
/// Planning again with every initial_place where the plan put the item proposes no move, for one
/// period; over several periods the year does come round to moves.
[[nodiscard]] YearPlan plan_by_turns(const YearProblem& problem, const YearEffort& effort = {});

/// The whole year at once (minimum multistage matching, NP-hard from two periods on): prices per
/// cell and period by dual ascent and subgradient, a plan period by period that sees the priced
/// cost to go, then polish of single items' years and of single periods. Never dearer than
/// plan_by_turns. Bound and gap as proved; is_optimal where they meet.
[[nodiscard]] YearPlan plan_year(const YearProblem& problem, const YearEffort& effort = {});

}  // namespace sunfleck::assign
