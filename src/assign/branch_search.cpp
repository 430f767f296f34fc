#include "branch_search.h"

#include "matching_start.h"

#include <algorithm>
#include <limits>
#include <set>
#include <utility>

namespace sunfleck::assign {
namespace {

class BranchSearch {
  public:
    BranchSearch(const ChoiceTable& table, const SearchEffort& effort)
        : table_(table), effort_(effort), space_(table), search_(space_), polish_(table) {
        start_from(polish_.choices());
    }

    /// A plan to beat; it must fit the table.
    void start_from(const std::vector<std::int32_t>& choices) {
        keep(choices, total_cost(table_, choices));
    }

    void climb() { prices_ = climb_root(); }

    std::int64_t left_over_count() const {
        std::int64_t count = 0;
        for (std::int32_t item = 0; item < table_.item_count(); ++item) {
            if (best_[at(item)] == table_.left_over(item)) ++count;
        }
        return count;
    }
    const std::vector<std::int32_t>& best() const { return best_; }
    bool is_proved() const { return is_closed(prices_.bound); }

    ProvedPlan branch_out() {
        ProvedPlan proved;
        for (std::int32_t r = 0; r < table_.resource_count(); ++r) {
            proved.price.push_back(prices_.of_resource[at(r)] / search_.scale(r));
        }
        effort_limit_ = search_.effort() + effort_.branching;
        const std::int64_t bound = explore(prices_);
        proved.bound = std::min(bound, best_cost_);
        proved.choices = best_;
        proved.cost = best_cost_;
        return proved;
    }

  private:
    static constexpr int most_matchings = 60;
    static constexpr int root_rounds = 40;
    static constexpr std::int64_t polish_effort = 3'000'000;
    static constexpr int passes_per_round = 50;
    static constexpr int rounds_per_plan = 4;
    static constexpr int node_passes = 30;

    void keep(const std::vector<std::int32_t>& choices, std::int64_t cost) {
        if (!best_.empty() && cost >= best_cost_) return;
        best_ = choices;
        best_cost_ = cost;
    }

    /// What to climb towards while no good plan is known.
    double target(double bound) const {
        const auto best = static_cast<double>(best_cost_);
        return std::min(best, bound + std::max(0.05 * bound, 0.02 * (best - bound)));
    }

    /// Where cells alone make an assignment problem, that gives the first prices; where nothing
    /// else binds, it gives the plan.
    Prices first_prices() {
        if (!is_matching(table_)) return best_even_prices();
        Prices prices = search_.zero();
        MatchingStart matching(table_);
        const auto offer = [&](const MatchingStart::Point& point) {
            if (fits(table_, point.choices)) keep(point.choices, total_cost(table_, point.choices));
            return static_cast<double>(best_cost_);
        };
        prices.of_resource = matching.climb(offer, most_matchings).price;
        prices.bound = search_.evaluate(prices.of_resource);
        return prices;
    }

    /// The best of no prices at all, and of some that show at once what being left over means.
    Prices best_even_prices() {
        Prices best = search_.zero();
        best.bound = search_.evaluate(best.of_resource);
        const auto offer = [&](Prices prices) {
            prices.bound = search_.evaluate(prices.of_resource);
            if (prices.bound > best.bound) best = std::move(prices);
        };
        const auto left_over = static_cast<double>(table_.left_over_cost);
        // One price for all cells at which items of some width are just as well left over.
        for (const std::size_t width : cell_counts()) {
            Prices even = search_.zero();
            std::fill_n(even.of_resource.begin(), table_.cell_count,
                        left_over / static_cast<double>(width));
            offer(std::move(even));
        }
        // Where some must be left over: a price that takes most or all of the cost off that.
        for (std::int32_t r = table_.cell_count; r < table_.resource_count(); ++r) {
            if (table_.capacity[at(r)] >= 0) continue;
            for (const double kept : {0.0, 0.001, 0.01, 0.1, 0.5}) {
                Prices relieved = search_.zero();
                relieved.of_resource[at(r)] = left_over * (1.0 - kept);
                offer(std::move(relieved));
            }
        }
        return best;
    }

    /// The different numbers of cells that choices cover.
    std::set<std::size_t> cell_counts() const {
        std::set<std::size_t> counts;
        for (std::int32_t c = 0; c < table_.choice_count(); ++c) {
            const auto cells = std::ranges::count_if(table_.uses_of(c), [&](const auto& use) {
                return use.resource < table_.cell_count;
            });
            if (cells > 0) counts.insert(static_cast<std::size_t>(cells));
        }
        return counts;
    }

    Prices climb_root() {
        Prices prices = first_prices();
        if (is_closed(prices.bound)) return prices;
        polish_.construct([&](std::int32_t choice) { return search_.priced(choice); });
        keep(polish_.choices(), polish_.cost());
        Climb climb{.passes = passes_per_round, .step = 1.0, .patience = 40, .damping = 0.9};
        for (int round = 1; round <= root_rounds && climb.step > 0.01; ++round) {
            const double before = prices.bound;
            const auto goal = target(prices.bound);
            prices = search_.climb(std::move(prices), goal, climb);
            if (round % rounds_per_plan == 1) construct_at(prices);
            if (is_closed(prices.bound)) return prices;
            if (root_effort() > effort_.root) break;
            if (prices.bound < before + 1e-3 * (static_cast<double>(best_cost_) - before)) {
                climb.step *= 0.6;
            }
        }
        construct_at(prices);
        return prices;
    }

    /// Nothing that costs at least so much beats the best plan.
    bool is_closed(double bound) const { return least_whole(bound) >= best_cost_; }

    std::int64_t root_effort() const { return search_.effort() + polish_.effort(); }

    /// Builds and polishes a plan at prices. No plan cheaper than the best one takes a choice that
    /// the prices close, so the polish need not look at those.
    void construct_at(const Prices& prices) {
        const double bound = search_.evaluate(prices.of_resource);
        polish_.look_only_at([&, bound](std::int32_t choice) {
            const std::int32_t cheapest = search_.cheapest(space_.item_of(choice));
            return !is_closed(bound - search_.priced(cheapest) + search_.priced(choice));
        });
        polish_.construct([&](std::int32_t choice) { return search_.priced(choice); });
        polish_.improve(polish_effort);
        keep(polish_.choices(), polish_.cost());
    }

    /// The proved least cost below the present point: at least best_cost_ where it is exhausted.
    std::int64_t explore(Prices& prices) {
        if (space_.is_dead()) return best_cost_;
        prices = search_.climb(std::move(prices), static_cast<double>(best_cost_),
                               {.passes = node_passes, .patience = 5, .damping = 0.8});
        if (!close_by_price(prices)) return best_cost_;
        keep_cheapest_if_it_fits();
        if (is_closed(prices.bound)) return best_cost_;
        if (space_.unsettled_count() == 0) {
            keep_settled();
            return best_cost_;
        }
        if (search_.effort() > effort_limit_) return least_whole(prices.bound);
        return branch(prices);
    }

    /// Closes choices that only dearer plans take and settles items with one choice left, until
    /// nothing changes; false when nothing cheaper than the best plan is left.
    bool close_by_price(Prices& prices) {
        bool is_changed = true;
        while (is_changed) {
            if (space_.is_dead()) return false;
            prices.bound = search_.evaluate(prices.of_resource);
            if (is_closed(prices.bound)) return false;
            is_changed = false;
            for (std::int32_t item = 0; item < table_.item_count(); ++item) {
                if (space_.is_settled(item)) continue;
                if (close_item(item, prices.bound)) is_changed = true;
                if (space_.is_dead()) return false;
            }
        }
        return true;
    }

    bool close_item(std::int32_t item, double bound) {
        const double spare = bound - search_.priced(search_.cheapest(item));
        to_close_.clear();
        for (const std::int32_t c : space_.open(item)) {
            if (is_closed(spare + search_.priced(c))) to_close_.push_back(c);
        }
        for (const std::int32_t c : to_close_) space_.close(c);
        if (space_.is_dead()) return true;
        const bool is_single = space_.open(item).size() == 1;
        if (is_single) space_.settle(space_.open(item).front());
        return is_single;
    }

    void keep_cheapest_if_it_fits() {
        std::vector<std::int32_t> choices;
        for (std::int32_t item = 0; item < table_.item_count(); ++item) {
            const bool is_settled = space_.is_settled(item);
            choices.push_back(is_settled ? space_.open(item).front() : search_.cheapest(item));
        }
        if (fits(table_, choices)) keep(choices, total_cost(table_, choices));
    }

    void keep_settled() {
        std::vector<std::int32_t> choices;
        choices.reserve(static_cast<std::size_t>(table_.item_count()));
        for (std::int32_t item = 0; item < table_.item_count(); ++item) {
            choices.push_back(space_.open(item).front());
        }
        keep(choices, space_.settled_cost());
    }

    /// The unsettled item with the fewest open choices.
    std::int32_t tightest_item() const {
        std::int32_t tightest = -1;
        for (std::int32_t item = 0; item < table_.item_count(); ++item) {
            if (space_.is_settled(item)) continue;
            if (tightest < 0 || space_.open(item).size() < space_.open(tightest).size()) {
                tightest = item;
            }
        }
        return tightest;
    }

    std::int64_t branch(const Prices& prices) {
        const std::int32_t item = tightest_item();
        std::vector<std::pair<double, std::int32_t>> children;
        for (const std::int32_t c : space_.open(item)) children.emplace_back(search_.priced(c), c);
        std::ranges::sort(children);
        const double spare = prices.bound - children.front().first;
        std::int64_t bound = std::numeric_limits<std::int64_t>::max();
        for (const auto& [priced, choice] : children) {
            if (is_closed(spare + priced)) break;
            if (search_.effort() > effort_limit_) {
                return std::min(bound, least_whole(spare + priced));
            }
            const SearchSpace::Mark mark = space_.mark();
            space_.settle(choice);
            Prices child = prices;
            bound = std::min(bound, explore(child));
            space_.undo_to(mark);
        }
        return std::min(bound, best_cost_);
    }

    const ChoiceTable& table_;
    SearchEffort effort_;
    SearchSpace space_;
    PriceSearch search_;
    PlanPolish polish_;
    Prices prices_;
    std::vector<std::int32_t> best_;
    std::int64_t best_cost_ = 0;
    std::int64_t effort_limit_ = 0;
    std::vector<std::int32_t> to_close_;
};

/// The same choices, each costing nothing and being left over one: the least cost is the least
/// number left over.
ChoiceTable counting_left_over(ChoiceTable table) {
    std::ranges::fill(table.cost, 0);
    table.left_over_cost = 1;
    set_costs(table, std::vector<std::int64_t>(table.cost.size(), 0));
    return table;
}

/// The table with the knowledge that so many are left over in any plan: one more resource that
/// being left over gives, and of which so many are wanted. Its price takes the sting out of the
/// cost of being left over, which else hides every other difference from the bound.
ChoiceTable expecting_left_over(const ChoiceTable& table, std::int64_t count) {
    ChoiceTable expecting = table;
    expecting.uses.clear();
    expecting.first_use.assign(1, 0);
    for (std::int32_t item = 0; item < table.item_count(); ++item) {
        for (std::int32_t c = table.begin(item); c < table.end(item); ++c) {
            const auto uses = table.uses_of(c);
            expecting.uses.insert(expecting.uses.end(), uses.begin(), uses.end());
            if (c == table.left_over(item)) {
                expecting.uses.push_back({table.resource_count(), -1});
            }
            expecting.first_use.push_back(static_cast<std::int32_t>(expecting.uses.size()));
        }
    }
    expecting.capacity.push_back(-count);
    return expecting;
}

/// First how many must be left over, then who.
ProvedPlan plan_with_left_over(const ChoiceTable& table, const std::vector<std::int32_t>& start,
                               const SearchEffort& effort) {
    const ChoiceTable counting = counting_left_over(table);
    BranchSearch count(counting, effort);
    count.start_from(start);
    count.climb();
    const ProvedPlan fewest = count.branch_out();
    const ChoiceTable expecting = expecting_left_over(table, fewest.bound);
    BranchSearch search(expecting, effort);
    search.start_from(start);
    search.start_from(fewest.choices);
    search.climb();
    ProvedPlan proved = search.branch_out();
    proved.price.pop_back();
    return proved;
}

}  // namespace

ProvedPlan least_cost_plan(const ChoiceTable& table, const SearchEffort& effort) {
    BranchSearch search(table, effort);
    search.climb();
    if (search.left_over_count() == 0 || search.is_proved()) return search.branch_out();
    return plan_with_left_over(table, search.best(), effort);
}

}  // namespace sunfleck::assign
