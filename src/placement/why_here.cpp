#include "sunfleck/placement/why_here.h"

#include "sunfleck/base/require.h"
#include "sunfleck/placement/reasons.h"

#include <algorithm>
#include <map>
#include <string>
#include <vector>

namespace sunfleck::placement {

namespace {

/// Losses below this many growth days are no difference.
constexpr double no_difference = 0.005;

std::ptrdiff_t placed_count(const SeasonPlan& plan) {
    return std::count_if(plan.spot_of_row.begin(), plan.spot_of_row.end(),
                         [](const auto& spot) { return spot.has_value(); });
}

/// Nothing when another pot would be left without a place.
std::optional<WhyHere> compared(const scene::Scene& scene, const HarmTable& table,
                                const SeasonPlan& plan, std::size_t row, std::size_t instead) {
    WhyHere why;
    why.row = row;
    why.spot = *plan.spot_of_row[row];
    why.instead = instead;
    why.other = plan_season(scene, table, {.forced = PlanOptions::Forced{row, instead}});
    if (placed_count(why.other) < placed_count(plan)) return std::nullopt;
    why.own_harm_change =
        table.at(row, instead).parts.total() - table.at(row, why.spot).parts.total();
    why.others_harm_change = why.other.harm_total - plan.harm_total - why.own_harm_change;
    why.lifts_change = why.other.lifts - plan.lifts;
    why.objective_change = why.other.objective - plan.objective;
    why.loss_at_least = std::max(0.0, why.other.bound - plan.objective);
    why.is_equally_good =
        why.objective_change <= std::max(no_difference, plan.objective - plan.bound);
    return why;
}

/// By spot: whether a pot other than the row's stands there and can't be moved.
std::vector<bool> held_for_good(const HarmTable& table, std::size_t row) {
    std::vector<bool> is_held(table.spots.size(), false);
    for (std::size_t other = 0; other < table.rows.size(); ++other) {
        const HarmRow& holder = table.rows[other];
        if (other == row || holder.may_move || !holder.start_spot) continue;
        for (const std::size_t cell : table.covered(other, *holder.start_spot)) {
            is_held[cell] = true;
        }
    }
    return is_held;
}

/// The cheapest spot of each bench for the row alone, but for the one it stands at and those that
/// others hold for good.
std::map<std::string, std::size_t> best_by_bench(const HarmTable& table, std::size_t row,
                                                 std::size_t spot) {
    const std::vector<bool> is_held = held_for_good(table, row);
    std::map<std::string, std::size_t> best;
    for (std::size_t other = 0; other < table.spots.size(); ++other) {
        if (other == spot || table.at(row, other).refusal != Refusal::none) continue;
        const auto cells = table.covered(row, other);
        if (std::ranges::any_of(cells, [&](std::size_t cell) { return is_held[cell]; })) continue;
        const auto [entry, is_new] = best.emplace(table.spots[other].bench, other);
        if (!is_new && table.cost(row, other) < table.cost(row, entry->second) - 1e-6) {
            entry->second = other;
        }
    }
    return best;
}

std::optional<WhyHere> best_elsewhere(const scene::Scene& scene, const HarmTable& table,
                                      const SeasonPlan& plan, std::size_t row) {
    const std::size_t spot = *plan.spot_of_row[row];
    std::map<std::string, std::size_t> candidates = best_by_bench(table, row, spot);
    if (candidates.size() > 1) candidates.erase(table.spots[spot].bench);
    std::optional<WhyHere> best;
    for (const auto& [bench, other] : candidates) {
        std::optional<WhyHere> why = compared(scene, table, plan, row, other);
        if (!why) continue;
        if (!best || why->objective_change < best->objective_change - 1e-6) best = std::move(why);
    }
    return best;
}

}  // namespace

Result<WhyHere> why_here(const scene::Scene& scene, const HarmTable& table, const SeasonPlan& plan,
                         std::size_t row, std::optional<std::size_t> instead) {
    SUNFLECK_REQUIRE(plan.spot_of_row[row], "the pot has a place in the plan");
    if (instead) {
        if (table.at(row, *instead).refusal != Refusal::none) {
            return failure({.kind = ProblemKind::no_answer,
                            .code = "spot_refused",
                            .message = refusal_words(scene, table, row, *instead),
                            .mend = "Ask about another spot."});
        }
        if (std::optional<WhyHere> why = compared(scene, table, plan, row, *instead)) {
            return std::move(*why);
        }
        return failure({.kind = ProblemKind::no_answer,
                        .code = "spot_held",
                        .message = "With " + pot_words(scene, table.rows[row]) + " at " +
                                   table.spots[*instead].name +
                                   ", another pot would have no place.",
                        .mend = "Ask about another spot, or lift a pin."});
    }
    std::optional<WhyHere> best = best_elsewhere(scene, table, plan, row);
    if (!best) {
        return failure({.kind = ProblemKind::no_answer,
                        .code = "no_other_spot",
                        .message = pot_words(scene, table.rows[row]) +
                                   " may stand nowhere but at " +
                                   table.spots[*plan.spot_of_row[row]].name + ".",
                        .mend = "Lift its pin or its exclusions to ask about other spots."});
    }
    return std::move(*best);
}

}  // namespace sunfleck::placement
