#include "cli/asked.h"
#include "cli/commands.h"
#include "cli/season_table.h"
#include "sunfleck/output/placement_report.h"
#include "sunfleck/placement/move_plan.h"
#include "sunfleck/placement/season_plan.h"
#include "sunfleck/scene/spots.h"

#include <ostream>

namespace sunfleck::cli {
namespace {

Result<placement::HarmPeriod> period_of(const scene::Scene& scene, const std::string& season,
                                        std::optional<int> year) {
    const auto dates = dates_asked(scene, {.season = season, .year = year});
    if (!dates) return tl::unexpected(dates.error());
    return placement::HarmPeriod{.season = season, .dates = dates->range};
}

}  // namespace

Result<void> run(const MovesArguments& arguments, Terminal& terminal) {
    const auto file = open_scene(arguments.common, terminal);
    if (!file) return tl::unexpected(file.error());
    const scene::Scene& scene = file->scene();
    if (auto ready = require_pots_and_spots(scene); !ready) return ready;
    const auto first = period_of(scene, arguments.from_season, arguments.year);
    if (!first) return tl::unexpected(first.error());
    const auto second = period_of(scene, arguments.to_season, arguments.year);
    if (!second) return tl::unexpected(second.error());

    const int threads = arguments.common.threads;
    const auto before = season_table(
        scene, *first, placement::standing_now(scene, scene::spots_of(scene)), threads);
    if (!before) return tl::unexpected(before.error());
    const auto old_plan = placement::plan_season(scene, *before);
    const auto table = season_table(scene, *second, old_plan.spot_of_row, threads);
    if (!table) return tl::unexpected(table.error());
    const auto moves = placement::plan_moves(
        scene, *table, placement::plan_season(scene, *table, {.lifts = arguments.lifts}));

    if (!arguments.write.empty()) {
        const auto planned =
            file->with_pots_at(spots_of_pots(scene, *table, moves.plan.spot_of_row));
        if (auto saved = planned.save(arguments.write); !saved) return saved;
    }
    const output::MovesAnswer answer{
        .scene = scene, .table = *table, .moves = moves, .from_season = arguments.from_season};
    switch (arguments.common.format) {
        case Format::json:
            terminal.out << output::moves_json(answer, {.command = "moves",
                                                        .scene_name = scene.site.name,
                                                        .scene_file = scene.file,
                                                        .year = year_of(table->dates.from),
                                                        .time_zone = scene.site.time_zone,
                                                        .warnings = file->warnings()});
            break;
        case Format::csv:
            terminal.out << output::moves_csv(answer);
            break;
        case Format::table:
            terminal.out << output::moves_text(answer);
            break;
    }
    return {};
}

}  // namespace sunfleck::cli
