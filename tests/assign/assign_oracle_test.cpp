#include "assign/lemon_oracle.h"
#include "assign/random_periods.h"
#include "base/within.h"
#include "sunfleck/assign/few_moves.h"
#include "sunfleck/assign/period_plan.h"

#include <catch2/catch.hpp>
#include <glpk.h>

#include <cmath>
#include <cstdint>
#include <vector>

using namespace sunfleck::assign;
using namespace sunfleck::assign::testing;
using sunfleck::test::within;

namespace {

/// A row of the model: choices with coefficients, and an upper limit (items: exactly 1).
class GlpkModel {
  public:
    explicit GlpkModel(const PeriodProblem& problem)
        : problem_(problem), model_(glp_create_prob()) {
        glp_term_out(GLP_OFF);
        const int items = static_cast<int>(problem.items.size());
        const int loads = static_cast<int>(problem.load_limits.size());
        glp_add_rows(model_, items + problem.cell_count + loads);
        for (int i = 1; i <= items; ++i) glp_set_row_bnds(model_, i, GLP_FX, 1.0, 1.0);
        for (int cell = 1; cell <= problem.cell_count; ++cell) {
            glp_set_row_bnds(model_, items + cell, GLP_UP, 0.0, 1.0);
        }
        for (int load = 0; load < loads; ++load) {
            const double limit = problem.load_limits[static_cast<std::size_t>(load)];
            glp_set_row_bnds(model_, items + problem.cell_count + load + 1, GLP_UP, 0.0, limit);
        }
        for (int i = 0; i < items; ++i) add_item(i);
    }
    GlpkModel(const GlpkModel&) = delete;
    GlpkModel& operator=(const GlpkModel&) = delete;
    ~GlpkModel() { glp_delete_prob(model_); }

    /// At most so many columns other than `before` (index of choice per item).
    void limit_lifts(const std::vector<std::int32_t>& before, int lifts) {
        std::vector<int> columns{0};
        std::vector<double> ones{0.0};
        int column = 0;
        for (std::size_t i = 0; i < problem_.items.size(); ++i) {
            for (std::size_t c = 0; c < problem_.items[i].choices.size(); ++c) {
                ++column;
                if (static_cast<std::int32_t>(c) == before[i]) continue;
                columns.push_back(column);
                ones.push_back(1.0);
            }
        }
        const int row = glp_add_rows(model_, 1);
        glp_set_row_bnds(model_, row, GLP_UP, 0.0, lifts);
        glp_set_mat_row(model_, row, static_cast<int>(columns.size()) - 1, columns.data(),
                        ones.data());
    }

    /// The least cost; NaN where GLPK does not prove one.
    [[nodiscard]] double least_cost() {
        glp_iocp control;
        glp_init_iocp(&control);
        control.presolve = GLP_ON;
        const bool is_run = glp_intopt(model_, &control) == 0;
        const bool is_proved = is_run && glp_mip_status(model_) == GLP_OPT;
        return is_proved ? glp_mip_obj_val(model_) : std::nan("");
    }

  private:
    void add_item(int i) {
        const Item& item = problem_.items[static_cast<std::size_t>(i)];
        const int items = static_cast<int>(problem_.items.size());
        for (const Choice& choice : item.choices) {
            const int column = glp_add_cols(model_, 1);
            glp_set_col_kind(model_, column, GLP_BV);
            glp_set_obj_coef(model_, column, choice.cost);
            std::vector<int> rows{0, i + 1};
            std::vector<double> values{0.0, 1.0};
            for (const auto cell : choice.cells) {
                rows.push_back(items + cell + 1);
                values.push_back(1.0);
            }
            if (choice.load >= 0) {
                rows.push_back(items + problem_.cell_count + choice.load + 1);
                values.push_back(item.weight);
            }
            glp_set_mat_col(model_, column, static_cast<int>(rows.size()) - 1, rows.data(),
                            values.data());
        }
    }

    const PeriodProblem& problem_;
    glp_prob* model_;
};

void check_against_glpk(const PeriodKind& kind, std::uint64_t seed) {
    CAPTURE(seed, kind.items, kind.widest, kind.load_limits);
    const PeriodProblem problem = random_period(kind, seed);
    const double least = GlpkModel(problem).least_cost();
    REQUIRE(std::isfinite(least));
    const PeriodPlan plan = solve_period(problem);
    CHECK(is_sound(problem, plan));
    CHECK(plan.bound <= least + 1e-6);
    CHECK(plan.is_optimal);
    CHECK(plan.cost == within(least, 1e-4));
}

}  // namespace

TEST_CASE("single cells agree with LEMON's network simplex", "[assign][cross]") {
    // LEMON 1.3.1. Costs in whole millionths: totals are equal, not near.
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        CAPTURE(seed);
        const std::int32_t distinct = seed % 3 == 0 ? 5 : 0;
        const PeriodProblem problem = random_period(
            {.items = 80, .cells = 100, .absent = 0.8, .distinct_costs = distinct}, seed);
        std::vector<FlowArc> arcs;
        for (std::size_t i = 0; i < problem.items.size(); ++i) {
            for (const Choice& choice : problem.items[i].choices) {
                arcs.push_back(
                    {static_cast<int>(i), choice.cells[0], std::llround(choice.cost * 1e6)});
            }
        }
        const std::int64_t least = least_cost_by_lemon(80, 100, arcs);
        const PeriodPlan plan = solve_period(problem);
        CHECK(plan.is_feasible == (least >= 0));
        if (least < 0) continue;
        std::int64_t cost = 0;
        for (std::size_t i = 0; i < problem.items.size(); ++i) {
            const auto c = static_cast<std::size_t>(plan.choice_of_item[i]);
            cost += std::llround(problem.items[i].choices[c].cost * 1e6);
        }
        CHECK(cost == least);
    }
}

TEST_CASE("wide items and load limits agree with GLPK's branch and bound", "[assign][cross]") {
    // GLPK 5.0, glp_intopt; its own tolerances are 1e-7 relative.
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        check_against_glpk({.items = 14, .cells = 34, .widest = 3, .absent = 0.1}, seed);
        check_against_glpk({.items = 14, .cells = 20, .load_limits = 3, .load_share = 1.1}, seed);
        check_against_glpk(
            {.items = 12, .cells = 30, .widest = 2, .load_limits = 2, .load_share = 1.2}, seed);
    }
}

TEST_CASE("the best few moves agree with GLPK's branch and bound", "[assign][cross]") {
    for (std::uint64_t seed = 1; seed <= 4; ++seed) {
        const std::int32_t widest = seed % 2 == 0 ? 2 : 1;
        const PeriodProblem problem =
            random_period({.items = 16, .cells = 34, .widest = widest}, seed);
        PeriodProblem other = random_period({.items = 16, .cells = 34, .widest = widest}, seed);
        Dice dice(seed + 77);
        for (Item& item : other.items) {
            for (Choice& choice : item.choices) choice.cost = dice.unit();
        }
        const std::vector<std::int32_t> before = solve_period(other).choice_of_item;
        for (const int lifts : {2, 5, 9}) {
            CAPTURE(seed, lifts);
            GlpkModel model(problem);
            model.limit_lifts(before, lifts);
            const double least = model.least_cost();
            REQUIRE(std::isfinite(least));
            const FewMoves few = best_moves(problem, before, lifts);
            CHECK(few.plan.bound <= least + 1e-6);
            CHECK(few.plan.cost == within(least, 1e-4));
            CHECK(few.lifts <= lifts);
        }
    }
}
