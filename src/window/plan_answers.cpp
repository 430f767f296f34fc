#include "window/plan_answers.h"

#include "sunfleck/base/plain_words.h"
#include "sunfleck/document/thing_edits.h"
#include "sunfleck/output/plan_side.h"
#include "sunfleck/placement/reasons.h"
#include "sunfleck/placement/traced_table.h"
#include "sunfleck/scene/seasons.h"
#include "sunfleck/scene/spots.h"

#include <algorithm>
#include <utility>

namespace sunfleck::window {
namespace {

tl::unexpected<Problems> nothing_to_plan(const char* message, const char* mend) {
    return failure({.kind = ProblemKind::no_answer,
                    .code = "nothing_to_plan",
                    .message = message,
                    .mend = mend});
}

std::vector<PlannedMove> moves_of(const scene::Scene& scene, const placement::HarmTable& table,
                                  const placement::Standing& plan) {
    std::vector<PlannedMove> moves;
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        const auto& start = table.rows[row].start_spot;
        if (!plan[row] || start == plan[row]) continue;
        moves.push_back({.row = row,
                         .to = *plan[row],
                         .gain = start ? placement::own_gain(table, row, *plan[row]) : 0.0,
                         .reason = placement::place_reason(scene, table, plan, row)});
    }
    std::ranges::stable_sort(
        moves, [](const PlannedMove& a, const PlannedMove& b) { return a.gain > b.gain + 1e-6; });
    return moves;
}

}  // namespace

Result<PlanAnswers> plan_answers(const scene::Scene& scene, const PlanAsked& asked,
                                 int thread_count) {
    const auto spots = scene::spots_of(scene);
    if (scene.pots.empty()) return nothing_to_plan("No pots yet.", "Add some to the scene file.");
    if (spots.empty()) return nothing_to_plan("No bench yet.", "Add one to the scene file.");
    const auto dates = scene::season_range(scene, asked.season, asked.year);
    if (!dates) return tl::unexpected(dates.error());
    auto table = placement::trace_harm_table(scene, {.season = asked.season, .dates = *dates},
                                             placement::standing_now(scene, spots), thread_count);
    if (!table) return tl::unexpected(table.error());
    PlanAnswers answers{.asked = asked, .table = std::move(*table), .plan = {}, .moves = {}};
    answers.plan = placement::plan_season(scene, answers.table);
    answers.moves = moves_of(scene, answers.table, answers.plan.spot_of_row);
    answers.in_harm_now = output::pots_in_harm(answers.table, output::start_of(answers.table));
    answers.in_harm_after = output::pots_in_harm(answers.table, answers.plan.spot_of_row);
    return answers;
}

document::Command take_plan(const document::Document& document, const PlanAnswers& answers) {
    document::Command command{
        .name = "Take " + count_words(answers.moves.size(), "move"), .steps = {}, .strand = {}};
    for (const PlannedMove& move : answers.moves) {
        const auto& row = answers.table.rows[move.row];
        if (row.copy != 1) continue;  // a batch follows its first pot
        const auto placed = document::place_pot(document, document.scene().pots[row.pot].label.id,
                                                answers.table.spots[move.to].id);
        command.steps.insert(command.steps.end(), placed.steps.begin(), placed.steps.end());
    }
    return command;
}

}  // namespace sunfleck::window
