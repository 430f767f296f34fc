#include "sunfleck/placement/season_plan.h"

#include "placement/plan_problem.h"
#include "sunfleck/base/require.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::placement {

namespace {

/// Rounds of planning again from the plan itself; each makes the objective smaller.
constexpr int most_rounds = 20;

SeasonPlan told(const scene::Scene& scene, const HarmTable& table, Standing standing, double bound,
                bool is_optimal) {
    SeasonPlan plan;
    std::vector<bool> is_covered(table.spots.size(), false);
    for (std::size_t row = 0; row < standing.size(); ++row) {
        if (!standing[row]) continue;
        const std::size_t spot = *standing[row];
        const HarmRow& pot = table.rows[row];
        plan.harm_total += table.at(row, spot).parts.total();
        if (pot.start_spot && *pot.start_spot != spot) {
            plan.move_total += pot.move_cost;
            plan.moved_kg += scene.pots[pot.pot].weight_kg;
            ++plan.lifts;
        }
        for (const std::size_t cell : table.covered(row, spot)) is_covered[cell] = true;
    }
    for (std::size_t spot = 0; spot < is_covered.size(); ++spot) {
        if (!is_covered[spot]) plan.free_spots.push_back(spot);
    }
    plan.objective = plan.harm_total + plan.move_total;
    // A bound over a plan that exists would be no bound; only rounding may lift it there.
    SUNFLECK_REQUIRE(bound <= plan.objective + 1e-6 * (1.0 + std::abs(plan.objective)),
                     "a bound lies under every plan");
    plan.bound = std::min(bound, plan.objective);
    plan.is_optimal = is_optimal;
    plan.spot_of_row = std::move(standing);
    return plan;
}

/// Plans again from the plan until nothing moves, so that a plan carried out is kept. Jump and
/// move obey the triangle inequality: a plan that is better seen from the last one is better seen
/// from where the pots stand, too.
Standing settled(const scene::Scene& scene, const HarmTable& table, const PlanOptions& options,
                 Standing standing) {
    for (int round = 0; round < most_rounds; ++round) {
        const HarmTable moved = standing_at(scene, table, standing);
        Standing next = PlanProblem(scene, moved, options).solve().standing;
        if (next == standing || objective_of(moved, next) >= objective_of(moved, standing) - 1e-6) {
            break;
        }
        standing = std::move(next);
    }
    return standing;
}

}  // namespace

double SeasonPlan::gap_fraction() const {
    return is_optimal || objective <= 0.0 ? 0.0 : (objective - bound) / objective;
}

double harm_unmoved(const HarmTable& table, const Standing& plan) {
    double harm = 0.0;
    for (std::size_t row = 0; row < plan.size(); ++row) {
        const std::optional<std::size_t> stays = table.rows[row].start_spot;
        const std::optional<std::size_t> spot = stays ? stays : plan[row];
        if (spot) harm += table.at(row, *spot).parts.without_jump();
    }
    return harm;
}

SeasonPlan plan_season(const scene::Scene& scene, const HarmTable& table,
                       const PlanOptions& options) {
    PlanProblem::Answer answer = PlanProblem(scene, table, options).solve();
    if (!answer.is_optimal && !options.forced && !options.lifts) {
        answer.standing = settled(scene, table, options, std::move(answer.standing));
    }
    return told(scene, table, std::move(answer.standing), answer.bound, answer.is_optimal);
}

}  // namespace sunfleck::placement
