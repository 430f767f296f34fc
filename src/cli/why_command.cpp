#include "cli/asked.h"
#include "cli/asked_spots.h"
#include "cli/commands.h"
#include "cli/season_table.h"
#include "sunfleck/base/nearest_name.h"
#include "sunfleck/base/require.h"
#include "sunfleck/output/placement_report.h"
#include "sunfleck/placement/season_plan.h"
#include "sunfleck/placement/why_here.h"
#include "sunfleck/scene/spots.h"

#include <algorithm>
#include <ostream>

namespace sunfleck::cli {

namespace {

/// The pot with that code, before any long work.
Result<std::size_t> pot_asked(const scene::Scene& scene, const std::string& code) {
    for (std::size_t pot = 0; pot < scene.pots.size(); ++pot) {
        if (scene.pots[pot].label.id == code) return pot;
    }
    std::vector<std::string> known;
    for (const scene::Pot& pot : scene.pots) known.push_back(pot.label.id);
    const std::string nearest = nearest_name(code, known);
    return failure({.kind = ProblemKind::usage,
                    .code = "unknown_pot",
                    .message = "There is no pot " + code + ".",
                    .mend = nearest.empty() ? "The scene's pots are listed by sunfleck place."
                                            : "Did you mean " + nearest + "?",
                    .nearest = nearest});
}

/// The first row of a pot: every pot has at least one.
std::size_t first_row_of(const placement::HarmTable& table, std::size_t pot) {
    const auto found = std::find_if(table.rows.begin(), table.rows.end(),
                                    [&](const auto& row) { return row.pot == pot; });
    SUNFLECK_REQUIRE(found != table.rows.end(), "a pot without a row");
    return static_cast<std::size_t>(found - table.rows.begin());
}

Result<std::optional<std::size_t>> spot_asked(const scene::Scene& scene,
                                              const std::vector<scene::Spot>& spots,
                                              const std::string& id) {
    if (id.empty()) return std::optional<std::size_t>();
    const auto chosen = spots_asked(scene, spots, {id});
    if (!chosen) return tl::unexpected(chosen.error());
    if (chosen->size() > 1) {
        return failure(
            {.kind = ProblemKind::usage,
             .code = "spot_unclear",
             .message = id + " is a bench with " + std::to_string(chosen->size()) + " spots.",
             .mend = "Name one of them, such as " + spots[chosen->front()].id + "."});
    }
    return std::optional<std::size_t>(chosen->front());
}

}  // namespace

Result<void> run(const WhyArguments& arguments, Terminal& terminal) {
    const auto file = open_plannable_scene(arguments.common, terminal);
    if (!file) return tl::unexpected(file.error());
    const scene::Scene& scene = file->scene();
    const auto asked = period_asked(scene, arguments.when);
    if (!asked) return tl::unexpected(asked.error());
    const auto spots = scene::spots_of(scene);
    const auto pot = pot_asked(scene, arguments.pot);
    if (!pot) return tl::unexpected(pot.error());
    const auto instead = spot_asked(scene, spots, arguments.instead);
    if (!instead) return tl::unexpected(instead.error());
    const auto table = season_table(scene, asked->period, placement::standing_now(scene, spots),
                                    arguments.common.threads, terminal);
    if (!table) return tl::unexpected(table.error());

    const std::size_t row = first_row_of(*table, *pot);
    const auto plan = placement::plan_season(scene, *table);
    if (!plan.spot_of_row[row]) {
        return failure({.kind = ProblemKind::no_answer,
                        .code = "no_room",
                        .file = scene.file,
                        .message = "The plan has no room for " + arguments.pot + ".",
                        .mend = "Add spots, or let it stand where it is excluded."});
    }
    const auto why = placement::why_here(scene, *table, plan, row, *instead);
    if (!why) return tl::unexpected(why.error());
    const auto period = plan_period(scene, *table, asked->is_default);
    if (!period) return tl::unexpected(period.error());
    if (auto ready = ready_to_write(); !ready) return ready;
    const output::WhyAnswer answer{
        .period = *period, .plan = plan, .why = *why, .is_own_choice = !*instead};
    if (arguments.common.format == Format::json) {
        terminal.out << output::why_json(answer, envelope_of(*file, "why", *table));
    } else {
        terminal.out << output::why_text(answer);
    }
    return {};
}

}  // namespace sunfleck::cli
