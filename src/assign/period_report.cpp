#include "period_report.h"

#include <algorithm>
#include <cstddef>

namespace sunfleck::assign {
namespace {

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

PeriodPlan period_report(const PeriodProblem& problem, const ChoiceTable& table,
                         const ProvedPlan& proved) {
    const auto load_count = static_cast<std::ptrdiff_t>(problem.load_limits.size());
    PeriodPlan plan = plan_of(problem, table, proved.choices);
    std::vector<double> price;
    for (const double grains : proved.price) price.push_back(grains * table.grain);
    plan.cell_price.assign(price.begin(), price.begin() + table.cell_count);
    plan.load_price.assign(price.begin() + table.cell_count,
                           price.begin() + table.cell_count + load_count);
    for (double& per_amount : plan.load_price) per_amount /= weight_grain;
    plan.is_optimal = proved.bound >= proved.cost;
    plan.bound = std::max(proved_bound(problem, table, price, plan.unplaced.size()),
                          bound_by_search(table, proved.bound, plan.unplaced.size()));
    plan.bound = std::min(plan.cost, plan.bound);
    return plan;
}

}  // namespace sunfleck::assign
