#include "branch_search.h"

#include "matching_start.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace sunfleck::assign {
namespace {

class BranchSearch {
  public:
    BranchSearch(const ChoiceTable& table, const SearchEffort& effort)
        : table_(table), effort_(effort), space_(table), search_(space_), polish_(table) {}

    ProvedPlan solve() {
        keep(polish_.choices(), polish_.cost());
        Prices prices = climb_root();
        effort_limit_ = search_.effort() + effort_.branching;
        ProvedPlan proved;
        const std::int64_t bound = explore(prices);
        proved.bound = std::min(bound, best_cost_);
        proved.choices = best_;
        proved.cost = best_cost_;
        for (std::int32_t r = 0; r < table_.resource_count(); ++r) {
            proved.price.push_back(prices.of_resource[at(r)] / search_.scale(r));
        }
        return proved;
    }

  private:
    static constexpr int most_matchings = 60;
    static constexpr int root_rounds = 40;
    static constexpr int passes_per_round = 50;
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
        Prices prices = search_.zero();
        if (!is_matching(table_)) return prices;
        MatchingStart matching(table_);
        const auto offer = [&](const MatchingStart::Point& point) {
            if (fits(table_, point.choices)) keep(point.choices, total_cost(table_, point.choices));
            return static_cast<double>(best_cost_);
        };
        prices.of_resource = matching.climb(offer, most_matchings).price;
        prices.bound = search_.evaluate(prices.of_resource);
        return prices;
    }

    Prices climb_root() {
        Prices prices = first_prices();
        if (is_closed(prices.bound)) return prices;
        construct_at(prices);
        Climb climb{.passes = passes_per_round, .patience = 40, .damping = 0.9};
        double step = 1.0;
        for (int round = 0; round < root_rounds && search_.effort() < effort_.root; ++round) {
            const double before = prices.bound;
            climb.step = step;
            prices = search_.climb(std::move(prices), target(prices.bound), climb);
            construct_at(prices);
            if (is_closed(prices.bound)) break;
            if (prices.bound < before + 1e-3 * (static_cast<double>(best_cost_) - before)) {
                step *= 0.6;
            }
            if (step < 0.01) break;
        }
        return prices;
    }

    bool is_closed(double bound) const { return least_whole(bound) >= best_cost_; }

    void construct_at(const Prices& prices) {
        search_.evaluate(prices.of_resource);
        polish_.construct([&](std::int32_t choice) { return search_.priced(choice); });
        polish_.improve();
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
    std::vector<std::int32_t> best_;
    std::int64_t best_cost_ = 0;
    std::int64_t effort_limit_ = 0;
    std::vector<std::int32_t> to_close_;
};

}  // namespace

ProvedPlan least_cost_plan(const ChoiceTable& table, const SearchEffort& effort) {
    return BranchSearch(table, effort).solve();
}

}  // namespace sunfleck::assign
