#include "sunfleck/assign/year_plan.h"

#include "array_index.h"
#include "branch_search.h"
#include "year_polish.h"
#include "year_prices.h"
#include "year_table.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace sunfleck::assign {
namespace {

/// Searches for the plan and the bound of one year.
class YearSearch {
  public:
    YearSearch(const YearProblem& problem, const YearEffort& effort)
        : table_(problem),
          effort_(effort),
          period_effort_{effort.period.prices, effort.period.branching},
          prices_(table_) {}

    /// Each period on its own with free moves: the first prices and a bound.
    void prove_free_moves() {
        YearPrices::PerPeriod price;
        for (std::int32_t t = 0; t < table_.period_count(); ++t) {
            const ProvedPlan free = least_cost_plan(table_.period(t), period_effort_);
            free_bound_ += free.bound;
            const std::vector<double> scale = mean_amounts(table_.period(t));
            price.push_back(free.price);
            for (std::size_t r = 0; r < scale.size(); ++r) price.back()[r] *= scale[r];
        }
        prices_.offer(price);
    }

    /// A plan period after period from where things stand; `sees_ahead`: with the priced cost of
    /// the rest of the year.
    void plan_forward(bool sees_ahead) {
        YearChoices plan;
        for (std::int32_t t = 0; t < table_.period_count(); ++t) {
            ChoiceTable period = table_.period(t);
            set_costs(period, costs_from(plan, t, sees_ahead));
            plan.push_back(least_cost_plan(period, period_effort_).choices);
        }
        keep(std::move(plan));
    }

    void polish(int rounds) {
        YearPolish polish(table_, best_, polish_effort());
        polish.improve(rounds);
        keep(polish.plan());
    }

    void prove_year() {
        for (int sweep = 0; can_sweep() && sweep < effort_.sweeps && !is_done(); ++sweep) {
            // From the third sweep on full steps stall.
            prices_.sweep(sweep < 2 ? 1.0 : 0.7);
            ++iterations_;
            try_prices();
        }
        for (int steps = 0; steps < effort_.price_steps && !is_done(); steps += steps_per_plan) {
            const auto target = static_cast<double>(target_cost());
            prices_.climb(target, std::min(steps_per_plan, effort_.price_steps - steps));
            iterations_ += steps_per_plan;
            try_prices();
        }
    }

    [[nodiscard]] YearPlan report() const;

  private:
    static constexpr int steps_per_plan = 50;
    static constexpr std::size_t most_years = 20;

    void keep(YearChoices plan) {
        const YearScore score = year_score(table_, plan);
        if (!best_.empty() && score >= score_) return;
        best_ = std::move(plan);
        score_ = score;
    }

    void try_prices() {
        prices_.look_at_best();
        plan_forward(true);
        polish(effort_.polish_rounds);
        if (!is_done()) push_through();
    }

    /// Tries for every item the years that the gap between plan and bound still leaves open.
    void push_through() {
        YearPolish polish(table_, best_, polish_effort());
        bool is_better = false;
        for (std::int32_t item = 0; item < table_.item_count(); ++item) {
            const auto spare = static_cast<double>(target_cost()) - prices_.best_bound();
            for (const auto& year : prices_.years_worth_a_look(item, spare, most_years)) {
                if (polish.try_year(item, year)) is_better = true;
            }
        }
        if (is_better) polish.improve(effort_.polish_rounds);
        keep(polish.plan());
    }

    /// One period among many plans tried: a tenth of the effort of proving one.
    SearchEffort polish_effort() const {
        return {period_effort_.root / 10, period_effort_.branching / 10};
    }

    std::vector<std::int64_t> costs_from(const YearChoices& plan, std::int32_t t,
                                         bool sees_ahead) const {
        const ChoiceTable& period = table_.period(t);
        std::vector<std::int64_t> cost = period.cost;
        for (std::int32_t item = 0; item < table_.item_count(); ++item) {
            const std::int32_t from = table_.place_before(plan, t, item);
            for (std::int32_t c = period.begin(item); c < period.left_over(item); ++c) {
                cost[at(c)] += table_.step(t, item, from, table_.place(t, c));
                if (sees_ahead) cost[at(c)] += std::llround(prices_.to_go(t, c));
            }
        }
        return cost;
    }

    bool can_sweep() const {
        for (std::int32_t t = 0; t < table_.period_count(); ++t) {
            const ChoiceTable& period = table_.period(t);
            for (std::int32_t c = 0; c < period.choice_count(); ++c) {
                const auto uses = period.uses_of(c);
                if (uses.size() > 1) return false;
                if (uses.size() == 1 && uses[0].resource >= period.cell_count) return false;
            }
        }
        return true;
    }

    /// The best plan's cost with the price of those left over, as the bound counts it.
    std::int64_t target_cost() const {
        std::int64_t cost = score_.cost;
        if (table_.period_count() > 0) {
            cost += score_.left_over * table_.period(0).left_over_cost;
        }
        return cost;
    }

    std::int64_t bound_grains() const {
        return std::min(target_cost(), std::max(free_bound_, least_whole(prices_.best_bound())));
    }

    bool is_done() const {
        const auto gap = static_cast<double>(target_cost() - bound_grains());
        return gap <= effort_.stop_at_gap * static_cast<double>(score_.cost);
    }

    YearTable table_;
    YearEffort effort_;
    SearchEffort period_effort_;
    YearPrices prices_;
    YearChoices best_;
    YearScore score_;
    std::int64_t free_bound_ = 0;
    std::int32_t iterations_ = 0;
};

YearPlan YearSearch::report() const {
    const YearProblem& problem = table_.problem();
    YearPlan plan;
    for (std::int32_t t = 0; t < table_.period_count(); ++t) {
        plan.place_of_item.emplace_back();
        double harm = 0.0;
        double moves = 0.0;
        std::int32_t lifts = 0;
        for (std::int32_t item = 0; item < table_.item_count(); ++item) {
            const std::int32_t choice = best_[at(t)][at(item)];
            const std::int32_t to = table_.place(t, choice);
            const std::int32_t from = table_.place_before(best_, t, item);
            plan.place_of_item.back().push_back(to);
            if (to < 0) continue;
            const auto source = at(table_.period(t).source[at(choice)]);
            harm += problem.items[at(item)].places_of_period[at(t)][source].cost;
            if (from < 0 || from == to) continue;
            ++lifts;
            moves += problem.items[at(item)].move_effort;
            if (problem.step_cost) moves += problem.step_cost(t, item, from, to);
        }
        plan.harm_of_period.push_back(harm);
        plan.move_cost_of_period.push_back(moves);
        plan.lifts_of_period.push_back(lifts);
        plan.cost += harm + moves;
        plan.lifts += lifts;
    }
    plan.is_feasible = score_.left_over == 0;
    plan.is_optimal = bound_grains() >= target_cost();
    plan.iterations = iterations_;
    // Grains may lie half of one per harm, and one per move, above the costs as given.
    const double rounding = 1.5 * table_.item_count() * table_.period_count();
    const std::int64_t left_over = target_cost() - score_.cost;
    const double bound = (static_cast<double>(bound_grains() - left_over) - rounding);
    plan.bound = std::clamp(bound * table_.grain(), 0.0, plan.cost);
    return plan;
}

}  // namespace

YearPlan plan_by_turns(const YearProblem& problem, const YearEffort& effort) {
    YearSearch search(problem, effort);
    search.prove_free_moves();
    search.plan_forward(false);
    return search.report();
}

YearPlan plan_year(const YearProblem& problem, const YearEffort& effort) {
    YearSearch search(problem, effort);
    search.prove_free_moves();
    search.plan_forward(false);
    search.polish(effort.polish_rounds);
    search.prove_year();
    return search.report();
}

}  // namespace sunfleck::assign
