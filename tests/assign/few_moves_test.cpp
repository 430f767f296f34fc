#include "sunfleck/assign/few_moves.h"

#include "assign/random_periods.h"
#include "base/within.h"

#include <catch2/catch.hpp>

#include <cstdint>
#include <limits>
#include <vector>

using namespace sunfleck::assign;
using namespace sunfleck::assign::testing;
using sunfleck::test::within;

namespace {

using Plan = std::vector<std::int32_t>;

/// The least cost of any sound plan of all items with at most so many lifts, by trying each.
class EveryFewMoves {
  public:
    EveryFewMoves(const PeriodProblem& problem, const Plan& before, std::int32_t most_lifts,
                  const Plan& towards)
        : problem_(problem),
          before_(before),
          towards_(towards),
          most_lifts_(most_lifts),
          is_taken_(static_cast<std::size_t>(problem.cell_count), false) {}

    [[nodiscard]] double least() {
        place(0, 0, 0.0);
        return least_;
    }

  private:
    void place(std::size_t i, std::int32_t lifts, double cost) {
        if (lifts > most_lifts_ || cost >= least_) return;
        if (i == before_.size()) {
            least_ = cost;
            return;
        }
        const auto& choices = problem_.items[i].choices;
        for (std::size_t c = 0; c < choices.size(); ++c) {
            const bool is_move = static_cast<std::int32_t>(c) != before_[i];
            if (is_move && !towards_.empty() && static_cast<std::int32_t>(c) != towards_[i]) {
                continue;
            }
            if (!is_free(choices[c])) continue;
            hold(choices[c], true);
            place(i + 1, lifts + (is_move ? 1 : 0), cost + choices[c].cost);
            hold(choices[c], false);
        }
    }

    [[nodiscard]] bool is_free(const Choice& choice) const {
        for (const auto cell : choice.cells) {
            if (is_taken_[static_cast<std::size_t>(cell)]) return false;
        }
        return true;
    }

    void hold(const Choice& choice, bool is_held) {
        for (const auto cell : choice.cells) is_taken_[static_cast<std::size_t>(cell)] = is_held;
    }

    const PeriodProblem& problem_;
    const Plan& before_;
    const Plan& towards_;
    std::int32_t most_lifts_;
    std::vector<bool> is_taken_;
    double least_ = std::numeric_limits<double>::infinity();
};

/// Some sound plan: the best one at other costs.
Plan plan_at_other_costs(PeriodProblem problem, std::uint64_t seed) {
    Dice dice(seed);
    for (Item& item : problem.items) {
        for (Choice& choice : item.choices) choice.cost = dice.unit();
    }
    return solve_period(problem).choice_of_item;
}

void check_every_number_of_lifts(const PeriodKind& kind, std::uint64_t seed, bool is_towards) {
    const PeriodProblem problem = random_period(kind, seed);
    const Plan before = plan_at_other_costs(problem, seed + 1000);
    const Plan towards = is_towards ? solve_period(problem).choice_of_item : Plan{};
    if (!solve_period(problem).is_feasible) return;
    for (std::int32_t lifts = 0; lifts <= kind.items; ++lifts) {
        CAPTURE(seed, lifts, kind.widest);
        const double least = EveryFewMoves(problem, before, lifts, towards).least();
        const FewMoves few = best_moves(problem, before, lifts, towards);
        CHECK(is_sound(problem, few.plan));
        CHECK(few.lifts <= lifts);
        CHECK(few.lifts == lift_count(before, few.plan.choice_of_item));
        CHECK(few.plan.bound <= least + 1e-9);
        CHECK(few.plan.cost >= least - 1e-9);
        CHECK(few.plan.is_optimal);
        CHECK(few.plan.cost == within(least, 1e-5));
    }
}

}  // namespace

TEST_CASE("the best few moves are the best of all so few moves", "[assign][property]") {
    for (std::uint64_t seed = 1; seed <= 15; ++seed) {
        check_every_number_of_lifts({.items = 6, .cells = 7}, seed, false);
        check_every_number_of_lifts({.items = 5, .cells = 9, .widest = 2}, seed, false);
        check_every_number_of_lifts({.items = 6, .cells = 8}, seed, true);
    }
}

TEST_CASE("eight pots on ten places: every number of lifts is proved best", "[assign][property]") {
    check_every_number_of_lifts({.items = 8, .cells = 10}, 7, false);
}

TEST_CASE("with lifts to spare the best few moves are the best plan", "[assign][property]") {
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
        CAPTURE(seed);
        const PeriodProblem problem = random_period({.items = 30, .cells = 50}, seed);
        const Plan before = plan_at_other_costs(problem, seed);
        const PeriodPlan best = solve_period(problem);
        const FewMoves all = best_moves(problem, before, 30);
        CHECK(all.plan.cost == within(best.cost, 1e-9));
        CHECK_FALSE(all.price_of_a_lift > 0.0);
        // And from the best plan nothing is worth a lift.
        CHECK(best_moves(problem, best.choice_of_item, 30).lifts == 0);
        CHECK(best_moves(problem, before, 0).plan.choice_of_item == before);
    }
}

TEST_CASE("more lifts never cost more, and the bound holds for larger gardens",
          "[assign][property]") {
    const PeriodProblem problem = random_period({.items = 25, .cells = 45, .widest = 2}, 3);
    const Plan before = plan_at_other_costs(problem, 3);
    double previous = std::numeric_limits<double>::infinity();
    for (const std::int32_t lifts : {0, 2, 5, 9, 14, 25}) {
        CAPTURE(lifts);
        const FewMoves few = best_moves(problem, before, lifts);
        CHECK(is_sound(problem, few.plan));
        CHECK(few.lifts <= lifts);
        CHECK(few.plan.bound <= previous + 1e-9);
        previous = few.plan.cost;
    }
}

TEST_CASE("an item without its place among the choices needs a lift", "[assign][property]") {
    PeriodProblem problem;
    problem.cell_count = 2;
    problem.items = {{{{1.0, {0}}, {2.0, {1}}}}, {{{5.0, {0}}, {9.0, {1}}}}};
    const FewMoves none = best_moves(problem, Plan{-1, 0}, 0);
    CHECK(none.plan.unplaced == std::vector<std::int32_t>{0});
    const FewMoves one = best_moves(problem, Plan{-1, 0}, 1);
    CHECK(one.plan.choice_of_item == Plan{1, 0});
    CHECK(one.lifts == 1);
}
