#include "sunfleck/assign/year_plan.h"

#include "assign/random_periods.h"
#include "base/within.h"
#include "sunfleck/base/require.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <map>
#include <numeric>
#include <vector>

using namespace sunfleck;
using namespace sunfleck::assign;
using namespace sunfleck::assign::testing;
using sunfleck::test::within;

namespace {

struct YearKind {
    std::int32_t items = 3;
    std::int32_t cells = 5;
    std::int32_t periods = 3;
    std::int32_t widest = 1;
    double absent = 0.0;
    double effort = 1.0;  ///< greatest effort of a move
    double stands = 0.5;  ///< share of items that stand somewhere at first
};

YearProblem random_year(const YearKind& kind, std::uint64_t seed) {
    Dice dice(seed);
    YearProblem problem;
    problem.cell_count = kind.cells;
    problem.period_count = kind.periods;
    for (std::int32_t width = 1; width <= kind.widest; ++width) {
        for (std::int32_t first = 0; first + width <= kind.cells; ++first) {
            Place place;
            for (std::int32_t k = 0; k < width; ++k) place.cells.push_back(first + k);
            problem.places.push_back(place);
        }
    }
    std::int32_t initial_cell = 0;
    for (std::int32_t i = 0; i < kind.items; ++i) {
        YearItem item;
        item.move_effort = kind.effort * dice.unit();
        const std::int32_t width = 1 + dice.below(kind.widest);
        for (std::int32_t t = 0; t < kind.periods; ++t) {
            item.places_of_period.emplace_back();
            for (std::size_t p = 0; p < problem.places.size(); ++p) {
                if (static_cast<std::int32_t>(problem.places[p].cells.size()) != width) continue;
                const double cost = 3.0 * dice.unit();
                if (dice.chance(kind.absent)) continue;
                item.places_of_period.back().push_back({static_cast<std::int32_t>(p), cost});
            }
        }
        if (dice.chance(kind.stands) && initial_cell + width <= kind.cells) {
            for (std::size_t p = 0; p < problem.places.size(); ++p) {
                const auto& cells = problem.places[p].cells;
                if (static_cast<std::int32_t>(cells.size()) == width && cells[0] == initial_cell) {
                    item.initial_place = static_cast<std::int32_t>(p);
                }
            }
        }
        initial_cell += width;
        problem.items.push_back(std::move(item));
    }
    return problem;
}

/// Grains would be wrong by the rounding of each cost: what the tests allow for.
double rounding(const YearProblem& problem) {
    return 2e-6 * static_cast<double>(problem.items.size()) * problem.period_count + 1e-9;
}

double step(const YearProblem& problem, std::int32_t t, std::int32_t i, std::int32_t from,
            std::int32_t to) {
    if (from < 0 || to < 0 || from == to) return 0.0;
    double cost = problem.items[static_cast<std::size_t>(i)].move_effort;
    if (problem.step_cost) cost += problem.step_cost(t, i, from, to);
    return cost;
}

/// The least cost over all years in which everything is placed: all placements of each period,
/// and dynamic programming over the periods.
class EveryYear {
  public:
    explicit EveryYear(const YearProblem& problem) : problem_(problem) {}

    [[nodiscard]] double least() {
        std::vector<std::int32_t> initial;
        for (const YearItem& item : problem_.items) initial.push_back(item.initial_place);
        std::map<std::vector<std::int32_t>, double> years{{initial, 0.0}};
        for (std::int32_t t = 0; t < problem_.period_count; ++t) {
            placements_.clear();
            std::vector<std::int32_t> chosen;
            std::vector<bool> is_taken(static_cast<std::size_t>(problem_.cell_count), false);
            place(t, 0.0, chosen, is_taken);
            std::map<std::vector<std::int32_t>, double> next;
            for (const auto& [placement, harm] : placements_) {
                double best = std::numeric_limits<double>::infinity();
                for (const auto& [before, cost] : years) {
                    best = std::min(best, cost + harm + steps(t, before, placement));
                }
                next.emplace(placement, best);
            }
            years = std::move(next);
        }
        double best = std::numeric_limits<double>::infinity();
        for (const auto& [placement, cost] : years) best = std::min(best, cost);
        return best;
    }

  private:
    double steps(std::int32_t t, const std::vector<std::int32_t>& from,
                 const std::vector<std::int32_t>& to) const {
        double sum = 0.0;
        for (std::size_t i = 0; i < to.size(); ++i) {
            sum += step(problem_, t, static_cast<std::int32_t>(i), from[i], to[i]);
        }
        return sum;
    }

    void place(std::int32_t t, double harm, std::vector<std::int32_t>& chosen,
               std::vector<bool>& is_taken) {
        if (chosen.size() == problem_.items.size()) {
            placements_.emplace_back(chosen, harm);
            return;
        }
        const auto& item = problem_.items[chosen.size()];
        for (const auto& [where, cost] : item.places_of_period[static_cast<std::size_t>(t)]) {
            const auto& cells = problem_.places[static_cast<std::size_t>(where)].cells;
            const auto is_held = [&](auto cell) {
                return is_taken[static_cast<std::size_t>(cell)];
            };
            if (std::ranges::any_of(cells, is_held)) continue;
            for (const auto cell : cells) is_taken[static_cast<std::size_t>(cell)] = true;
            chosen.push_back(where);
            place(t, harm + cost, chosen, is_taken);
            chosen.pop_back();
            for (const auto cell : cells) is_taken[static_cast<std::size_t>(cell)] = false;
        }
    }

    const YearProblem& problem_;
    std::vector<std::pair<std::vector<std::int32_t>, double>> placements_;
};

/// Cells hold one item, places are allowed, and all sums are what they say.
void check_sound(const YearProblem& problem, const YearPlan& plan) {
    double cost = 0.0;
    std::int32_t lifts = 0;
    bool is_feasible = true;
    REQUIRE(plan.place_of_item.size() == static_cast<std::size_t>(problem.period_count));
    std::vector<std::int32_t> stood;
    for (const YearItem& item : problem.items) stood.push_back(item.initial_place);
    for (std::size_t t = 0; t < plan.place_of_item.size(); ++t) {
        std::vector<int> holders(static_cast<std::size_t>(problem.cell_count), 0);
        double harm = 0.0;
        double moves = 0.0;
        for (std::size_t i = 0; i < problem.items.size(); ++i) {
            const std::int32_t to = plan.place_of_item[t][i];
            if (to < 0) {
                is_feasible = false;
                continue;
            }
            const auto& allowed = problem.items[i].places_of_period[t];
            const auto found = std::ranges::find(allowed, to, &PlaceCost::place);
            REQUIRE(found != allowed.end());
            harm += found->cost;
            moves += step(problem, static_cast<std::int32_t>(t), static_cast<std::int32_t>(i),
                          stood[i], to);
            if (stood[i] >= 0 && stood[i] != to) ++lifts;
            stood[i] = to;
            for (const auto cell : problem.places[static_cast<std::size_t>(to)].cells) {
                CHECK(++holders[static_cast<std::size_t>(cell)] == 1);
            }
        }
        CHECK(plan.harm_of_period[t] == Approx(harm));
        CHECK(plan.move_cost_of_period[t] == within(moves, 1e-12));
        cost += harm + moves;
    }
    CHECK(plan.cost == Approx(cost));
    CHECK(plan.lifts == lifts);
    CHECK(plan.lifts ==
          std::accumulate(plan.lifts_of_period.begin(), plan.lifts_of_period.end(), 0));
    CHECK(plan.is_feasible == is_feasible);
    CHECK(plan.bound <= plan.cost);
}

}  // namespace

TEST_CASE("years of single cells are planned at the least cost and proved", "[assign][property]") {
    int optimal = 0;
    int reached = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        CAPTURE(seed);
        const YearProblem problem = random_year({.items = 3, .cells = 5, .absent = 0.1}, seed);
        const double least = EveryYear(problem).least();
        const YearPlan plan = plan_year(problem);
        const YearPlan turns = plan_by_turns(problem);
        check_sound(problem, plan);
        check_sound(problem, turns);
        CHECK(plan.bound <= least + 1e-9);
        CHECK(turns.bound <= least + 1e-9);
        CHECK(turns.cost >= least - 1e-9);
        CHECK(plan.cost <= turns.cost + rounding(problem));
        CHECK(plan.cost >= least - 1e-9);
        if (plan.cost <= least + rounding(problem)) ++reached;
        if (!plan.is_optimal) continue;
        ++optimal;
        CHECK(plan.cost <= least + rounding(problem));
        CHECK(plan.bound >= least - 2.0 * rounding(problem));
    }
    // NP-hard, and the method is no exact one: of seeds 1 to 300, 299 reached the optimum and 295
    // proved it; the misses fall on seeds 22 and two of these 40.
    CHECK(reached >= 39);
    CHECK(optimal >= 38);
}

TEST_CASE("years of wide items stay between bound and every year", "[assign][property]") {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        CAPTURE(seed);
        const YearProblem problem =
            random_year({.items = 3, .cells = 7, .periods = 3, .widest = 3}, seed);
        const double least = EveryYear(problem).least();
        const YearPlan plan = plan_year(problem);
        check_sound(problem, plan);
        CHECK(plan.is_feasible == std::isfinite(least));
        if (!plan.is_feasible) continue;
        CHECK(plan.bound <= least + 1e-9);
        CHECK(plan.cost >= least - 1e-9);
        CHECK(plan.cost <= 1.05 * least);
    }
}

TEST_CASE("one period planned again from its result moves nothing", "[assign][property]") {
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        YearProblem problem = random_year({.items = 12,
                                           .cells = 20,
                                           .periods = 1,
                                           .widest = seed % 2 == 0 ? 2 : 1,
                                           .effort = 0.5,
                                           .stands = 0.8},
                                          seed);
        // Some pairs of places the same to everyone, some moves free of effort.
        for (YearItem& item : problem.items) {
            auto& places = item.places_of_period[0];
            for (std::size_t p = 0; p + 1 < places.size(); p += 2)
                places[p + 1].cost = places[p].cost;
            if (seed % 3 == 0) item.move_effort = 0.0;
        }
        problem.step_cost = [](std::int32_t, std::int32_t, std::int32_t from, std::int32_t to) {
            return 0.1 * std::max(0, to - from);  // obeys the triangle rule
        };
        const YearPlan first = plan_by_turns(problem);
        check_sound(problem, first);
        if (!first.is_feasible) continue;
        for (std::size_t i = 0; i < problem.items.size(); ++i) {
            problem.items[i].initial_place = first.place_of_item[0][i];
        }
        const YearPlan again = plan_by_turns(problem);
        CHECK(again.lifts == 0);
        CHECK(again.place_of_item == first.place_of_item);
    }
}

TEST_CASE("without effort the year is its periods' optima; with a huge one nothing moves",
          "[assign][property]") {
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
        CAPTURE(seed);
        YearProblem problem = random_year({.items = 10, .cells = 15, .periods = 4}, seed);
        for (YearItem& item : problem.items) item.move_effort = 0.0;
        const YearPlan free = plan_by_turns(problem);
        CHECK(free.cost == within(free.bound, 4e-4));
        for (YearItem& item : problem.items) item.move_effort = 1000.0;
        for (std::size_t i = 0; i < problem.items.size(); ++i) {
            problem.items[i].initial_place = static_cast<std::int32_t>(i);
        }
        CHECK(plan_year(problem).lifts == 0);
    }
}

TEST_CASE("a period without room leaves the fewest over and the others go on",
          "[assign][property]") {
    YearProblem problem = random_year({.items = 3, .cells = 4, .periods = 3}, 5);
    problem.items[1].places_of_period[1].clear();  // nowhere in the second period
    for (const YearPlan& plan : {plan_by_turns(problem), plan_year(problem)}) {
        check_sound(problem, plan);
        CHECK_FALSE(plan.is_feasible);
        CHECK(plan.place_of_item[1][1] == -1);
        CHECK(plan.place_of_item[0][1] >= 0);
        CHECK(plan.place_of_item[2][1] >= 0);
    }
    CHECK(plan_year(YearProblem{}).is_feasible);
}

TEST_CASE("a middling year is proved within one in a hundred", "[assign][property]") {
    const YearProblem problem =
        random_year({.items = 20, .cells = 35, .periods = 4, .effort = 0.5, .stands = 0.0}, 11);
    const YearPlan plan = plan_year(problem, {.stop_at_gap = 0.01});
    check_sound(problem, plan);
    CHECK(plan.cost - plan.bound <= 0.01 * plan.cost);
    // The same again, the same to the last bit.
    CHECK(plan_year(problem, {.stop_at_gap = 0.01}).place_of_item == plan.place_of_item);
}

TEST_CASE("a place listed twice and an unknown place are bugs", "[assign][property]") {
    YearProblem problem = random_year({.periods = 2}, 1);
    YearProblem twice = problem;
    twice.items[0].places_of_period[1].push_back(twice.items[0].places_of_period[1].front());
    CHECK_THROWS_AS(plan_by_turns(twice), InternalError);
    problem.items[0].initial_place = 99;
    CHECK_THROWS_AS(plan_by_turns(problem), InternalError);
}
