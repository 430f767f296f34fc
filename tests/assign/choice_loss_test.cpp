#include "sunfleck/assign/choice_loss.h"

#include "assign/random_periods.h"
#include "base/within.h"
#include "sunfleck/base/require.h"

#include <catch2/catch.hpp>

#include <cstdint>

using namespace sunfleck;
using namespace sunfleck::assign;
using namespace sunfleck::assign::testing;
using sunfleck::test::within;

namespace {

void check_losses(const PeriodKind& kind, std::uint64_t seed) {
    const PeriodProblem problem = random_period(kind, seed);
    const PeriodPlan plan = solve_period(problem);
    if (!plan.is_feasible) return;
    for (std::int32_t item = 0; item < kind.items; ++item) {
        const auto i = static_cast<std::size_t>(item);
        const auto quick = losses_at_least(problem, plan, item);
        REQUIRE(quick.size() == problem.items[i].choices.size());
        for (std::size_t c = 0; c < quick.size(); ++c) {
            CAPTURE(seed, item, c);
            PeriodProblem narrowed = problem;
            narrowed.items[i].choices = {problem.items[i].choices[c]};
            const BestOfAll best = EveryPlan(narrowed).best();
            const auto choice = static_cast<std::int32_t>(c);
            const ChoiceLoss loss = loss_if(problem, plan, item, choice);
            CHECK(loss.is_possible == (best.left_over == 0));
            if (best.left_over > 0) continue;
            const double truth = best.cost - plan.cost;
            CHECK(quick[c] <= truth + 1e-6);
            CHECK(loss.at_least <= truth + 1e-6);
            CHECK(loss.at_most >= truth - 1e-6);
            CHECK(loss.at_most - loss.at_least < 2e-5);
            CHECK(loss.own_change + loss.others_change == within(truth, 1e-5));
            CHECK(loss.forced.choice_of_item[i] == choice);
            CHECK(is_sound(problem, loss.forced));
            if (choice == plan.choice_of_item[i]) CHECK(loss.is_equally_good);
            CHECK(loss.is_equally_good == (truth < 1e-4));
        }
    }
}

}  // namespace

TEST_CASE("the loss of any other choice is what trying every plan says", "[assign][property]") {
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        check_losses({.items = 4, .cells = 6}, seed);
        check_losses({.items = 4, .cells = 8, .widest = 2, .absent = 0.2}, seed);
        check_losses({.items = 4, .cells = 5, .load_limits = 2, .load_share = 1.2}, seed);
    }
}

TEST_CASE("prices alone bound the loss of far choices from below", "[assign][property]") {
    // Two items want cell 0; the second wants it more.
    PeriodProblem problem;
    problem.cell_count = 3;
    problem.items = {{{{0.0, {0}}, {1.0, {1}}, {9.0, {2}}}},
                     {{{0.0, {0}}, {4.0, {1}}, {9.0, {2}}}}};
    const PeriodPlan plan = solve_period(problem);
    REQUIRE(plan.choice_of_item == std::vector<std::int32_t>{1, 0});
    const auto losses = losses_at_least(problem, plan, 0);
    CHECK(losses[1] == within(0.0, 1e-9));
    CHECK(losses[2] == Approx(8.0));
    const ChoiceLoss swap = loss_if(problem, plan, 0, 0);
    CHECK(swap.own_change == Approx(-1.0));
    CHECK(swap.others_change == Approx(4.0));
    CHECK(swap.at_least == within(3.0, 1e-5));
}

TEST_CASE("two equal places are equally good", "[assign][property]") {
    PeriodProblem problem;
    problem.cell_count = 3;
    problem.items = {{{{2.0, {0}}, {2.0, {1}}, {2.5, {2}}}}};
    const PeriodPlan plan = solve_period(problem);
    CHECK(loss_if(problem, plan, 0, 1).is_equally_good);
    CHECK_FALSE(loss_if(problem, plan, 0, 2).is_equally_good);
    CHECK(loss_if(problem, plan, 0, 2).at_least == within(0.5, 1e-5));
    CHECK_THROWS_AS(loss_if(problem, plan, 0, 3), InternalError);
    CHECK_THROWS_AS(loss_if(problem, plan, 1, 0), InternalError);
}
