#include "sunfleck/assign/period_plan.h"

#include "array_index.h"
#include "branch_search.h"
#include "choice_table.h"
#include "matching.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::assign {
namespace {

/// The choices of a table as arcs. Column of a choice: its cell, or the item's own column behind
/// the cells where it covers none.
std::vector<std::int32_t> columns(const ChoiceTable& table) {
    std::vector<std::int32_t> column(table.cost.size());
    for (std::int32_t item = 0; item < table.item_count(); ++item) {
        for (std::int32_t c = table.begin(item); c < table.end(item); ++c) {
            const auto uses = table.uses_of(c);
            const bool has_cell = !uses.empty() && uses[0].resource < table.cell_count;
            column[at(c)] = has_cell ? uses[0].resource : table.cell_count + item;
        }
    }
    return column;
}

Matching match_cells(const ChoiceTable& table) {
    const std::vector<std::int32_t> column = columns(table);
    Matching matching = least_cost_matching(
        {table.first_choice, column, table.cost, table.cell_count + table.item_count()});
    matching.column_price.resize(at(table.cell_count));
    return matching;
}

/// The certificate, in double on the costs as given: every plan that leaves over at most as many
/// items as this one costs at least this much.
double proved_bound(const PeriodProblem& problem, const ChoiceTable& table,
                    const std::vector<double>& price, std::size_t left_over_count) {
    const double left_over_cost = static_cast<double>(table.left_over_cost) * table.grain;
    double bound = -left_over_cost * static_cast<double>(left_over_count);
    for (std::int32_t item = 0; item < table.item_count(); ++item) {
        double least = left_over_cost;
        for (std::int32_t c = table.begin(item); c < table.left_over(item); ++c) {
            double cost = problem.items[at(item)].choices[at(table.source[at(c)])].cost;
            for (const auto& use : table.uses_of(c)) {
                cost += price[at(use.resource)] * static_cast<double>(use.amount);
            }
            least = std::min(least, cost);
        }
        bound += least;
    }
    for (std::size_t r = 0; r < price.size(); ++r) {
        bound -= price[r] * static_cast<double>(table.capacity[r]);
    }
    return std::max(bound, 0.0);
}

/// One assignment problem where that settles it, else the search.
ProvedPlan prove_plan(const ChoiceTable& table, const PeriodEffort& effort) {
    if (is_matching(table)) {
        Matching matching = match_cells(table);
        if (fits(table, matching.arc_of_row)) {
            const std::int64_t cost = total_cost(table, matching.arc_of_row);
            std::vector<double> price(matching.column_price.begin(), matching.column_price.end());
            price.resize(at(table.resource_count()), 0.0);
            return {std::move(matching.arc_of_row), cost, cost, std::move(price)};
        }
    }
    return least_cost_plan(table, {effort.prices, effort.branching});
}

/// The search's bound holds for whole grains: a plan's cost as given may lie half a grain per item
/// below its cost in grains.
double bound_by_search(const ChoiceTable& table, std::int64_t bound, std::size_t left_over_count) {
    const std::int64_t left_over =
        table.left_over_cost * static_cast<std::int64_t>(left_over_count);
    return (static_cast<double>(bound - left_over) - 0.5 * table.item_count()) * table.grain;
}

PeriodPlan plan_of(const PeriodProblem& problem, const ChoiceTable& table,
                   const std::vector<std::int32_t>& choice_of_item) {
    PeriodPlan plan;
    for (std::int32_t item = 0; item < table.item_count(); ++item) {
        const std::int32_t source = table.source[at(choice_of_item[at(item)])];
        plan.choice_of_item.push_back(source);
        if (source < 0) {
            plan.unplaced.push_back(item);
        } else {
            plan.cost += problem.items[at(item)].choices[at(source)].cost;
        }
    }
    plan.is_feasible = plan.unplaced.empty();
    return plan;
}

}  // namespace

PeriodPlan solve_period(const PeriodProblem& problem) {
    return solve_period(problem, {});
}

PeriodPlan solve_period(const PeriodProblem& problem, const PeriodEffort& effort) {
    const ChoiceTable table = choice_table(problem);
    const ProvedPlan proved = prove_plan(table, effort);
    PeriodPlan plan = plan_of(problem, table, proved.choices);
    std::vector<double> price;
    for (const double grains : proved.price) price.push_back(grains * table.grain);
    plan.cell_price.assign(price.begin(), price.begin() + table.cell_count);
    plan.load_price.assign(price.begin() + table.cell_count, price.end());
    for (double& per_amount : plan.load_price) per_amount /= weight_grain;
    plan.is_optimal = proved.bound >= proved.cost;
    plan.bound = std::max(proved_bound(problem, table, price, plan.unplaced.size()),
                          bound_by_search(table, proved.bound, plan.unplaced.size()));
    plan.bound = std::min(plan.cost, plan.bound);
    return plan;
}

}  // namespace sunfleck::assign
