#include "sunfleck/assign/period_plan.h"

#include "assign/random_periods.h"
#include "base/within.h"
#include "sunfleck/base/require.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <vector>

using namespace sunfleck;
using namespace sunfleck::assign;
using namespace sunfleck::assign::testing;
using sunfleck::test::within;

namespace {

PeriodProblem unit_problem(const std::vector<std::vector<double>>& costs) {
    PeriodProblem problem;
    problem.cell_count = static_cast<std::int32_t>(costs.front().size());
    for (const auto& row : costs) {
        Item item;
        for (std::size_t cell = 0; cell < row.size(); ++cell) {
            item.choices.push_back({row[cell], {static_cast<std::int32_t>(cell)}});
        }
        problem.items.push_back(item);
    }
    return problem;
}

void check_against_every_plan(const PeriodKind& kind, std::uint64_t seed) {
    CAPTURE(seed, kind.items, kind.cells, kind.widest, kind.load_limits);
    const PeriodProblem problem = random_period(kind, seed);
    const BestOfAll best = EveryPlan(problem).best();
    const PeriodPlan plan = solve_period(problem);
    CHECK(is_sound(problem, plan));
    CHECK(plan.unplaced.size() == best.left_over);
    CHECK(plan.cost == within(best.cost, 1e-5));
    CHECK(plan.bound <= best.cost + 1e-9);
    CHECK(plan.bound >= best.cost - 1e-5);
    CHECK(plan.is_optimal);
}

}  // namespace

TEST_CASE("textbook assignment problems reach their printed optimum", "[assign][published]") {
    struct Row {
        const char* source;
        std::vector<std::vector<double>> costs;
        double optimum;
    };
    // All from memory; each optimum is also tried against every assignment below.
    const std::vector<Row> rows = {
        {"Winston, Operations Research, chapter 7: machines and jobs, set-up times",
         {{14, 5, 8, 7}, {2, 12, 6, 5}, {7, 8, 3, 9}, {2, 4, 6, 10}},
         15.0},
        {"Pilgrim, worked example of Munkres' algorithm", {{1, 2, 3}, {2, 4, 6}, {3, 6, 9}}, 10.0},
        {"SciPy, test of linear_sum_assignment, square",
         {{400, 150, 400}, {400, 450, 600}, {300, 225, 300}},
         850.0},
        {"the same, rectangular",
         {{400, 150, 400, 1}, {400, 450, 600, 2}, {300, 225, 300, 3}},
         452.0},
        {"the same, second square", {{10, 10, 8}, {9, 8, 1}, {9, 7, 4}}, 18.0},
        {"the same, second rectangular", {{10, 10, 8, 11}, {9, 8, 1, 1}, {9, 7, 4, 10}}, 15.0},
    };
    for (const Row& row : rows) {
        CAPTURE(row.source);
        const PeriodProblem problem = unit_problem(row.costs);
        const PeriodPlan plan = solve_period(problem);
        CHECK(plan.cost == Approx(row.optimum));
        CHECK(plan.cost == Approx(EveryPlan(problem).best().cost));
        CHECK(plan.bound == Approx(plan.cost));
        CHECK(plan.is_optimal);
    }
}

TEST_CASE("unit cells give the best of all plans", "[assign][property]") {
    for (std::uint64_t seed = 1; seed <= 150; ++seed) {
        check_against_every_plan({.items = 5, .cells = 7, .absent = 0.3}, seed);
        check_against_every_plan({.items = 6, .cells = 5, .absent = 0.5}, seed);
        check_against_every_plan({.items = 5, .cells = 6, .distinct_costs = 3}, seed);
    }
}

TEST_CASE("wide items, load limits and absent choices give the best of all plans",
          "[assign][property]") {
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        check_against_every_plan({.items = 4, .cells = 9, .widest = 3, .absent = 0.2}, seed);
        check_against_every_plan({.items = 5, .cells = 7, .widest = 3}, seed);
        check_against_every_plan({.items = 5, .cells = 6, .load_limits = 2, .load_share = 1.1},
                                 seed);
        check_against_every_plan(
            {.items = 5, .cells = 8, .widest = 2, .absent = 0.3, .load_limits = 3}, seed);
        check_against_every_plan(
            {.items = 6, .cells = 5, .load_limits = 2, .load_share = 0.7, .distinct_costs = 4},
            seed);
    }
}

TEST_CASE("ties go to the first item and its first choice", "[assign][property]") {
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        const PeriodProblem problem =
            random_period({.items = 5, .cells = 6, .absent = 0.2, .distinct_costs = 3}, seed);
        // Trying plans in order keeps the first of equal ones.
        CHECK(solve_period(problem).choice_of_item == EveryPlan(problem).best().choice_of_item);
    }
}

TEST_CASE("prices are zero on free cells and prove the plan", "[assign][property]") {
    for (std::uint64_t seed = 1; seed <= 50; ++seed) {
        CAPTURE(seed);
        const PeriodProblem problem =
            random_period({.items = 20, .cells = 30, .absent = 0.4}, seed);
        const PeriodPlan plan = solve_period(problem);
        std::vector<bool> is_taken(30, false);
        double priced = 0.0;
        for (std::size_t i = 0; i < problem.items.size(); ++i) {
            const auto& choices = problem.items[i].choices;
            double least = choices.front().cost +
                           plan.cell_price.at(static_cast<std::size_t>(choices.front().cells[0]));
            for (const Choice& choice : choices) {
                least = std::min(
                    least,
                    choice.cost + plan.cell_price.at(static_cast<std::size_t>(choice.cells[0])));
            }
            priced += least;
            REQUIRE(plan.choice_of_item[i] >= 0);
            is_taken[static_cast<std::size_t>(
                choices[static_cast<std::size_t>(plan.choice_of_item[i])].cells[0])] = true;
        }
        for (std::size_t cell = 0; cell < 30; ++cell) {
            CHECK(plan.cell_price[cell] >= 0.0);
            if (!is_taken[cell]) CHECK_FALSE(plan.cell_price[cell] > 0.0);
            priced -= plan.cell_price[cell];
        }
        CHECK(priced == within(plan.cost, 3e-5));
    }
}

TEST_CASE("a cell's price is what one more cell like it would save", "[assign][property]") {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const PeriodProblem problem = random_period({.items = 12, .cells = 14}, seed);
        const PeriodPlan plan = solve_period(problem);
        for (std::int32_t cell = 0; cell < problem.cell_count; ++cell) {
            CAPTURE(seed, cell);
            PeriodProblem roomier = problem;
            const std::int32_t twin = roomier.cell_count++;
            for (Item& item : roomier.items) {
                Choice choice = item.choices.at(static_cast<std::size_t>(cell));
                choice.cells = {twin};
                item.choices.push_back(std::move(choice));
            }
            const double saved = plan.cost - solve_period(roomier).cost;
            CHECK(plan.cell_price[static_cast<std::size_t>(cell)] == within(saved, 3e-5));
        }
    }
}

TEST_CASE("where room is short, the fewest are left over and that is proved",
          "[assign][property]") {
    for (std::uint64_t seed = 1; seed <= 30; ++seed) {
        check_against_every_plan({.items = 5, .cells = 5, .widest = 2}, seed);
        check_against_every_plan({.items = 4, .cells = 6, .widest = 3, .absent = 0.4}, seed);
        check_against_every_plan(
            {.items = 5, .cells = 8, .widest = 2, .load_limits = 2, .load_share = 0.6}, seed);
    }
    // Twelve items of 21 cells on 20 cells: one is left over; the best of such plans is proved.
    for (const std::uint64_t seed : {2U, 10U, 21U, 29U, 38U}) {
        CAPTURE(seed);
        const PeriodPlan plan =
            solve_period(random_period({.items = 12, .cells = 20, .widest = 2}, seed));
        CHECK(plan.unplaced.size() == 1);
        CHECK(plan.is_optimal);
        CHECK(plan.cost - plan.bound < 1e-4);
    }
}

TEST_CASE("the order of items and choices changes nothing but ties", "[assign][property]") {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        CAPTURE(seed);
        const std::int32_t widest = seed % 2 == 0 ? 2 : 1;
        const PeriodProblem problem =
            random_period({.items = 12, .cells = 24, .widest = widest}, seed);
        PeriodProblem mirrored = problem;
        std::ranges::reverse(mirrored.items);
        for (Item& item : mirrored.items) std::ranges::reverse(item.choices);
        const PeriodPlan plan = solve_period(problem);
        const PeriodPlan mirror = solve_period(mirrored);
        CHECK(mirror.cost == within(plan.cost, 1e-9));
        for (std::size_t i = 0; i < problem.items.size(); ++i) {
            const auto& choices = problem.items[i].choices;
            const std::size_t there = problem.items.size() - 1 - i;
            CHECK(static_cast<std::int32_t>(choices.size()) - 1 - plan.choice_of_item[i] ==
                  mirror.choice_of_item[there]);
        }
        CHECK(solve_period(problem).choice_of_item == plan.choice_of_item);
    }
}

TEST_CASE("an item without any choice is left over, the others are placed", "[assign][property]") {
    PeriodProblem problem = unit_problem({{1, 2}, {3, 4}});
    problem.items.insert(problem.items.begin(), Item{});
    const PeriodPlan plan = solve_period(problem);
    CHECK_FALSE(plan.is_feasible);
    CHECK(plan.unplaced == std::vector<std::int32_t>{0});
    CHECK(plan.cost == Approx(5.0));
    CHECK(plan.bound == Approx(5.0));
    CHECK(plan.is_optimal);
    const PeriodPlan empty = solve_period(PeriodProblem{});
    CHECK(empty.is_feasible);
    CHECK(empty.is_optimal);
}

TEST_CASE("very large and very small costs keep their order", "[assign][property]") {
    for (const double scale : {1e-4, 1.0, 1e6, 1e12, 1e100}) {
        CAPTURE(scale);
        PeriodProblem problem = unit_problem({{4, 1, 3}, {2, 0, 5}, {3, 2, 2}});
        for (Item& item : problem.items) {
            for (Choice& choice : item.choices) choice.cost *= scale;
        }
        const PeriodPlan plan = solve_period(problem);
        CHECK(plan.cost == Approx(5.0 * scale));
        CHECK(plan.bound == Approx(5.0 * scale).epsilon(1e-9));
    }
}

TEST_CASE("a broken problem is a bug of its maker", "[assign][property]") {
    const PeriodProblem good = unit_problem({{1, 2}, {3, 4}});
    const auto broken = [&](auto change) {
        PeriodProblem problem = good;
        change(problem.items[0].choices[0]);
        return problem;
    };
    CHECK_THROWS_AS(solve_period(broken([](Choice& c) { c.cost = -1.0; })), InternalError);
    CHECK_THROWS_AS(solve_period(broken([](Choice& c) { c.cost = 0.0 / 0.0; })), InternalError);
    CHECK_THROWS_AS(solve_period(broken([](Choice& c) { c.cells = {2}; })), InternalError);
    CHECK_THROWS_AS(solve_period(broken([](Choice& c) { c.cells = {1, 1}; })), InternalError);
    CHECK_THROWS_AS(solve_period(broken([](Choice& c) { c.load = 0; })), InternalError);
}
