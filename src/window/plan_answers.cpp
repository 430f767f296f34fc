#include "window/plan_answers.h"

#include "sunfleck/base/plain_words.h"
#include "sunfleck/document/thing_edits.h"
#include "sunfleck/exposure/sun_arc.h"
#include "sunfleck/output/placement_report.h"
#include "sunfleck/output/plan_side.h"
#include "sunfleck/placement/reasons.h"
#include "sunfleck/placement/traced_table.h"
#include "sunfleck/scene/seasons.h"
#include "sunfleck/scene/spots.h"
#include "sunfleck/sun/civil_time.h"
#include "sunfleck/sun/sun_day.h"

#include <utility>

namespace sunfleck::window {
namespace {

tl::unexpected<Problems> nothing_to_plan(const char* message, const char* mend) {
    return failure({.kind = ProblemKind::no_answer,
                    .code = "nothing_to_plan",
                    .message = message,
                    .mend = mend});
}

std::vector<PlannedMove> moves_of(const scene::Scene& scene, const PlanAnswers& answers) {
    std::vector<PlannedMove> moves;
    for (const placement::PotMove& move : answers.carried.moves) {
        moves.push_back({.row = move.row, .to = move.to_spot, .reason = move.reason});
    }
    for (const std::size_t row : answers.carried.placed) {
        const placement::Standing& plan = answers.plan().spot_of_row;
        moves.push_back({.row = row,
                         .to = plan[row].value(),
                         .reason = placement::place_reason(scene, answers.table, plan, row)});
    }
    return moves;
}

Result<std::string> cautions_of(const scene::Scene& scene, const PlanAnswers& answers) {
    const auto zone = sun::TimeZone::find(scene.site.time_zone);
    if (!zone) return tl::unexpected(zone.error());
    const auto hot = [&](Date date) {
        return exposure::hot_hours(sun::sun_day(date, scene.site.place, *zone));
    };
    return output::carry_cautions({.scene = scene,
                                   .table = answers.table,
                                   .zone = *zone,
                                   .hot_on_first = hot(answers.table.dates.from),
                                   .hot_on_last = hot(answers.table.dates.to)},
                                  answers.carried);
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
    PlanAnswers answers{.asked = asked, .table = std::move(*table)};
    answers.carried =
        placement::plan_moves(scene, answers.table, placement::plan_season(scene, answers.table));
    answers.moves = moves_of(scene, answers);
    auto cautions = cautions_of(scene, answers);
    if (!cautions) return tl::unexpected(cautions.error());
    answers.cautions = std::move(*cautions);
    answers.in_harm_now = output::pots_in_harm(answers.table, output::start_of(answers.table));
    answers.in_harm_after = output::pots_in_harm(answers.table, answers.plan().spot_of_row);
    return answers;
}

document::Command take_plan(const document::Document& document, const PlanAnswers& answers) {
    document::Command command{
        .name = "Take " + count_words(answers.moves.size(), "move"), .steps = {}, .strand = {}};
    const placement::Standing& plan = answers.plan().spot_of_row;
    for (std::size_t row = 0; row < plan.size(); ++row) {
        if (answers.table.rows[row].copy != 1) continue;  // a batch follows its first pot
        const scene::Pot& pot = document.scene().pots[answers.table.rows[row].pot];
        const std::string spot = plan[row] ? answers.table.spots[*plan[row]].id : std::string();
        if (spot == pot.spot) continue;
        const auto placed = document::place_pot(document, pot.label.id, spot);
        command.steps.insert(command.steps.end(), placed.steps.begin(), placed.steps.end());
    }
    return command;
}

}  // namespace sunfleck::window
