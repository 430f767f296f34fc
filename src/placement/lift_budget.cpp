#include "placement/lift_budget.h"

#include <algorithm>
#include <limits>
#include <set>
#include <utility>

namespace sunfleck::placement {

namespace {

constexpr double same_cost = 1e-6;
constexpr int most_prices = 60;
/// Plans above the limit whose moves may complete one below it.
constexpr std::size_t most_donors = 8;

constexpr std::size_t nobody = std::numeric_limits<std::size_t>::max();

struct CountedPlan {
    Standing standing;
    double objective = 0.0;
    int lifts = 0;
};

CountedPlan counted(const HarmTable& table, Standing standing) {
    CountedPlan plan;
    plan.objective = objective_of(table, standing);
    plan.lifts = lifts_of(table, standing);
    plan.standing = std::move(standing);
    return plan;
}

/// Which row covers each spot, `nobody` where it is free.
std::vector<std::size_t> holders_of(const HarmTable& table, const Standing& standing) {
    std::vector<std::size_t> holder(table.spots.size(), nobody);
    for (std::size_t row = 0; row < standing.size(); ++row) {
        if (!standing[row]) continue;
        for (const std::size_t cell : table.covered(row, *standing[row])) holder[cell] = row;
    }
    return holder;
}

/// Rows that go together from one plan to another.
struct MoveGroup {
    std::vector<std::size_t> rows;  ///< ascending
    int lifts = 0;                  ///< more than before
    double gain = 0.0;
};

/// What a row needs to be able to move, and what those need in turn.
std::vector<std::size_t> rows_needed(const HarmTable& table, const std::vector<std::size_t>& holder,
                                     const Standing& target, std::size_t first) {
    std::set<std::size_t> needed{first};
    std::vector<std::size_t> open{first};
    while (!open.empty()) {
        const std::size_t row = open.back();
        open.pop_back();
        if (!target[row]) continue;
        for (const std::size_t cell : table.covered(row, *target[row])) {
            if (holder[cell] != nobody && needed.insert(holder[cell]).second) {
                open.push_back(holder[cell]);
            }
        }
    }
    return {needed.begin(), needed.end()};
}

/// Every group of moves that leads from `base` a part of the way to `target` and can be carried
/// out alone, one for each row that moves; groups that share rows need each other.
std::vector<MoveGroup> groups_between(const HarmTable& table, const Standing& base,
                                      const Standing& target) {
    const std::vector<std::size_t> holder = holders_of(table, base);
    std::set<std::vector<std::size_t>> seen;
    std::vector<MoveGroup> groups;
    for (std::size_t row = 0; row < base.size(); ++row) {
        if (base[row] == target[row]) continue;
        std::vector<std::size_t> rows = rows_needed(table, holder, target, row);
        if (!seen.insert(rows).second) continue;
        Standing moved = base;
        for (const std::size_t r : rows) moved[r] = target[r];
        MoveGroup group;
        group.lifts = lifts_of(table, moved) - lifts_of(table, base);
        group.gain = objective_of(table, base) - objective_of(table, moved);
        group.rows = std::move(rows);
        groups.push_back(std::move(group));
    }
    return groups;
}

/// Groups that share a row stand in one family; at most one of a family is taken.
std::vector<std::vector<MoveGroup>> families_of(std::vector<MoveGroup> groups,
                                                std::size_t row_count) {
    std::vector<std::size_t> family_of_row(row_count, nobody);
    std::vector<std::vector<MoveGroup>> families;
    for (MoveGroup& group : groups) {
        std::size_t family = nobody;
        for (const std::size_t row : group.rows) {
            const std::size_t other = family_of_row[row];
            if (other == nobody || other == family) continue;
            if (family == nobody) {
                family = other;
                continue;
            }
            // Two families meet: the later joins the earlier.
            for (MoveGroup& joined : families[other]) {
                for (const std::size_t r : joined.rows) family_of_row[r] = family;
                families[family].push_back(std::move(joined));
            }
            families[other].clear();
        }
        if (family == nobody) {
            family = families.size();
            families.emplace_back();
        }
        for (const std::size_t row : group.rows) family_of_row[row] = family;
        families[family].push_back(std::move(group));
    }
    return families;
}

/// The groups, one of a family at most, with the largest gain within `lifts` more lifts.
std::vector<MoveGroup> best_groups(const std::vector<std::vector<MoveGroup>>& families, int lifts) {
    // Knapsack: most gain with exactly k further lifts, family by family.
    const auto width = static_cast<std::size_t>(lifts) + 1;
    std::vector<double> gain(width, 0.0);
    std::vector<std::vector<std::size_t>> taken;  ///< per family and k: group, or nobody
    for (const std::vector<MoveGroup>& family : families) {
        std::vector<double> with = gain;
        std::vector<std::size_t> choice(width, nobody);
        for (std::size_t g = 0; g < family.size(); ++g) {
            const auto cost = static_cast<std::size_t>(std::max(0, family[g].lifts));
            for (std::size_t k = cost; k < width; ++k) {
                const double total = gain[k - cost] + family[g].gain;
                if (total > with[k] + same_cost) {
                    with[k] = total;
                    choice[k] = g;
                }
            }
        }
        gain = std::move(with);
        taken.push_back(std::move(choice));
    }
    std::vector<MoveGroup> chosen;
    std::size_t k = width - 1;
    for (std::size_t f = families.size(); f-- > 0;) {
        if (taken[f][k] == nobody) continue;
        const MoveGroup& group = families[f][taken[f][k]];
        chosen.push_back(group);
        k -= static_cast<std::size_t>(std::max(0, group.lifts));
    }
    return chosen;
}

/// `base` with the best groups of moves towards `target` that the limit leaves room for.
CountedPlan completed(const PlanProblem& problem, const CountedPlan& base, const Standing& target,
                      int lifts) {
    const HarmTable& table = problem.table();
    const auto families =
        families_of(groups_between(table, base.standing, target), base.standing.size());
    CountedPlan plan = base;
    for (const MoveGroup& group : best_groups(families, lifts - base.lifts)) {
        Standing moved = plan.standing;
        for (const std::size_t row : group.rows) moved[row] = target[row];
        CountedPlan next = counted(table, std::move(moved));
        if (next.lifts <= lifts && next.objective < plan.objective &&
            problem.is_possible(next.standing)) {
            plan = std::move(next);
        }
    }
    return plan;
}

/// Single moves, swaps, and moves whose loser takes its best free spot, while they help.
class LocalSearch {
  public:
    LocalSearch(const PlanProblem& problem, int lifts) : problem_(&problem), lifts_(lifts) {}

    [[nodiscard]] CountedPlan improved(CountedPlan plan) const {
        while (true) {
            std::optional<CountedPlan> better = best_step(plan);
            if (!better) return plan;
            plan = std::move(*better);
        }
    }

  private:
    struct Step {
        double change = -same_cost;
        std::vector<std::pair<std::size_t, std::size_t>> places;  ///< row, spot
    };

    [[nodiscard]] std::optional<CountedPlan> best_step(const CountedPlan& plan) const {
        const HarmTable& table = problem_->table();
        const std::vector<std::size_t> holder = holders_of(table, plan.standing);
        const std::vector<std::optional<std::size_t>> refuge = best_free_spots(plan, holder);
        Step best;
        std::optional<CountedPlan> better;
        const auto try_step = [&](double change,
                                  std::vector<std::pair<std::size_t, std::size_t>> places) {
            if (change >= best.change - same_cost) return;
            Standing moved = plan.standing;
            for (const auto& [row, spot] : places) moved[row] = spot;
            CountedPlan next = counted(table, std::move(moved));
            if (next.lifts > lifts_ || !problem_->is_possible(next.standing)) return;
            best = {change, std::move(places)};
            better = std::move(next);
        };
        for (std::size_t row = 0; row < plan.standing.size(); ++row) {
            if (!plan.standing[row]) continue;
            const std::size_t here = *plan.standing[row];
            for (const std::size_t there : problem_->choices_of(row)) {
                if (there == here) continue;
                const double own = table.cost(row, there) - table.cost(row, here);
                const std::optional<std::size_t> loser = only_holder(row, there, holder);
                if (!loser) continue;
                if (*loser == nobody) {
                    try_step(own, {{row, there}});
                    continue;
                }
                const std::size_t left = *plan.standing[*loser];
                if (table.at(*loser, here).refusal == Refusal::none) {
                    try_step(own + table.cost(*loser, here) - table.cost(*loser, left),
                             {{row, there}, {*loser, here}});
                }
                if (refuge[*loser]) {
                    try_step(own + table.cost(*loser, *refuge[*loser]) - table.cost(*loser, left),
                             {{row, there}, {*loser, *refuge[*loser]}});
                }
            }
        }
        return better;
    }

    /// The one other row on the spots that `row` would cover, `nobody` when they are free; nothing
    /// when there are several.
    [[nodiscard]] std::optional<std::size_t> only_holder(
        std::size_t row, std::size_t spot, const std::vector<std::size_t>& holder) const {
        std::size_t found = nobody;
        for (const std::size_t cell : problem_->table().covered(row, spot)) {
            if (holder[cell] == nobody || holder[cell] == row || holder[cell] == found) continue;
            if (found != nobody) return std::nullopt;
            found = holder[cell];
        }
        return found;
    }

    [[nodiscard]] std::vector<std::optional<std::size_t>> best_free_spots(
        const CountedPlan& plan, const std::vector<std::size_t>& holder) const {
        const HarmTable& table = problem_->table();
        std::vector<std::optional<std::size_t>> best(plan.standing.size());
        for (std::size_t row = 0; row < best.size(); ++row) {
            for (const std::size_t spot : problem_->choices_of(row)) {
                if (spot == plan.standing[row] || only_holder(row, spot, holder) != nobody) {
                    continue;
                }
                if (!best[row] || table.cost(row, spot) < table.cost(row, *best[row]) - same_cost) {
                    best[row] = spot;
                }
            }
        }
        return best;
    }

    const PlanProblem* problem_;
    int lifts_;
};

/// Plans met on the way to the right price, and the bound they prove.
struct PriceSearch {
    std::vector<CountedPlan> above;  ///< with more lifts than allowed, the last met last
    std::optional<CountedPlan> below;
    double bound = 0.0;
};

PriceSearch search_prices(const PlanProblem& problem, int lifts, const PlanProblem::Answer& free) {
    const HarmTable& table = problem.table();
    PriceSearch search;
    search.bound = free.bound;
    search.above.push_back(counted(table, free.standing));
    CountedPlan more = search.above.front();
    CountedPlan fewer;
    double price = unpayable_price(problem);
    for (int i = 0; i < most_prices; ++i) {
        const PlanProblem::Answer answer = problem.solve(price);
        CountedPlan met = counted(table, answer.standing);
        search.bound = std::max(search.bound, answer.bound - price * lifts);
        const bool is_first = i == 0;
        const bool is_new = is_first || met.objective + price * met.lifts <
                                            more.objective + price * more.lifts - same_cost;
        if (met.lifts > lifts) {
            if (is_first) return search;  // not even the moves that must be are within the limit
            search.above.push_back(met);
            more = std::move(met);
        } else {
            if (!search.below || met.objective < search.below->objective) search.below = met;
            fewer = std::move(met);
        }
        if (!is_new || more.lifts == fewer.lifts) break;
        price = (fewer.objective - more.objective) / (more.lifts - fewer.lifts);
    }
    return search;
}

}  // namespace

std::optional<BudgetAnswer> plan_within(const PlanProblem& problem, int lifts) {
    const HarmTable& table = problem.table();
    const PlanProblem::Answer free = problem.solve(0.0);
    if (lifts_of(table, free.standing) <= lifts) {
        return BudgetAnswer{free.standing, free.bound, free.is_optimal};
    }
    const PriceSearch search = search_prices(problem, lifts, free);
    if (!search.below) return std::nullopt;
    const LocalSearch local(problem, lifts);
    CountedPlan best = local.improved(*search.below);
    const std::size_t first_donor =
        search.above.size() > most_donors ? search.above.size() - most_donors : 0;
    for (std::size_t d = first_donor; d < search.above.size(); ++d) {
        CountedPlan plan =
            local.improved(completed(problem, *search.below, search.above[d].standing, lifts));
        if (plan.objective < best.objective - same_cost) best = std::move(plan);
    }
    BudgetAnswer answer;
    answer.bound = std::min(search.bound, best.objective);
    answer.is_optimal = best.objective - answer.bound <= same_cost * std::max(1.0, best.objective);
    answer.standing = std::move(best.standing);
    return answer;
}

}  // namespace sunfleck::placement
