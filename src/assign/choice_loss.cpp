#include "sunfleck/assign/choice_loss.h"

#include "array_index.h"
#include "sunfleck/base/require.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace sunfleck::assign {
namespace {

constexpr double rounding = 1e-6;  // costs are compared in whole millionths

const Choice& choice_of(const PeriodProblem& problem, std::int32_t item, std::int32_t choice) {
    SUNFLECK_REQUIRE(item >= 0 && at(item) < problem.items.size(), "the item exists");
    const auto& choices = problem.items[at(item)].choices;
    SUNFLECK_REQUIRE(choice >= 0 && at(choice) < choices.size(), "the choice exists");
    return choices[at(choice)];
}

void require_plan_of(const PeriodProblem& problem, const PeriodPlan& plan) {
    SUNFLECK_REQUIRE(plan.choice_of_item.size() == problem.items.size() &&
                         plan.cell_price.size() == at(problem.cell_count) &&
                         plan.load_price.size() == problem.load_limits.size(),
                     "the plan is one of this problem");
}

double priced(const PeriodPlan& plan, const Item& item, const Choice& choice) {
    double cost = choice.cost;
    for (const std::int32_t cell : choice.cells) cost += plan.cell_price[at(cell)];
    if (choice.load >= 0) cost += item.weight * plan.load_price[at(choice.load)];
    return cost;
}

double cheapest_priced(const PeriodPlan& plan, const Item& item) {
    double least = std::numeric_limits<double>::infinity();
    for (const Choice& choice : item.choices) least = std::min(least, priced(plan, item, choice));
    return least;
}

/// No plan that places all items costs less, by the plan's prices alone.
double bound_at_prices(const PeriodProblem& problem, const PeriodPlan& plan) {
    double bound = 0.0;
    for (const Item& item : problem.items) bound += cheapest_priced(plan, item);
    for (const double price : plan.cell_price) bound -= price;
    for (std::size_t l = 0; l < plan.load_price.size(); ++l) {
        // A limit that never binds may be huge and has no price.
        if (plan.load_price[l] > 0.0) bound -= plan.load_price[l] * problem.load_limits[l];
    }
    return bound;
}

}  // namespace

ChoiceLoss loss_if(const PeriodProblem& problem, const PeriodPlan& plan, std::int32_t item,
                   std::int32_t choice, const PeriodEffort& effort) {
    require_plan_of(problem, plan);
    const Choice& there = choice_of(problem, item, choice);
    const Choice& here = choice_of(problem, item, plan.choice_of_item[at(item)]);
    PeriodProblem narrowed = problem;
    narrowed.items[at(item)].choices = {there};
    ChoiceLoss loss;
    loss.forced = solve_period(narrowed, effort);
    std::int32_t& forced_choice = loss.forced.choice_of_item[at(item)];
    if (forced_choice == 0) forced_choice = choice;
    loss.is_possible = forced_choice >= 0 && loss.forced.unplaced.size() <= plan.unplaced.size();
    loss.own_change = there.cost - here.cost;
    loss.others_change = loss.forced.cost - plan.cost - loss.own_change;
    loss.at_least = std::max(0.0, loss.forced.bound - plan.cost);
    loss.at_most = std::max(0.0, loss.forced.cost - plan.cost);
    const double gap = std::max(plan.cost - plan.bound, rounding) +
                       rounding * static_cast<double>(problem.items.size());
    loss.is_equally_good = loss.is_possible && loss.at_least <= gap;
    return loss;
}

std::vector<double> losses_at_least(const PeriodProblem& problem, const PeriodPlan& plan,
                                    std::int32_t item) {
    require_plan_of(problem, plan);
    SUNFLECK_REQUIRE(item >= 0 && at(item) < problem.items.size(), "the item exists");
    if (!plan.is_feasible) return {};
    const Item& one = problem.items[at(item)];
    const double spare = bound_at_prices(problem, plan) - plan.cost - cheapest_priced(plan, one);
    std::vector<double> losses;
    for (const Choice& choice : one.choices) {
        losses.push_back(std::max(0.0, spare + priced(plan, one, choice)));
    }
    return losses;
}

}  // namespace sunfleck::assign
