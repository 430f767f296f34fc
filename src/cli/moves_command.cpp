#include "cli/answer_format.h"
#include "cli/asked.h"
#include "cli/commands.h"
#include "cli/plan_files.h"
#include "cli/season_table.h"
#include "sunfleck/output/placement_report.h"
#include "sunfleck/output/plan_picture.h"
#include "sunfleck/placement/move_plan.h"
#include "sunfleck/placement/season_plan.h"
#include "sunfleck/scene/spots.h"

#include <algorithm>
#include <utility>

namespace sunfleck::cli {

namespace {

/// The season that follows `before`: of the same year, or of the next when it begins earlier.
Result<placement::HarmPeriod> season_after(const scene::Scene& scene, const std::string& season,
                                           Date before, int year) {
    auto dates = dates_asked(scene, {.season = season, .year = year});
    if (dates && dates->range.from < before) {
        dates = dates_asked(scene, {.season = season, .year = year + 1});
    }
    if (!dates) return tl::unexpected(dates.error());
    return placement::HarmPeriod{.season = dates->season, .dates = dates->range};
}

/// Where the pots stand in the season that ends: where they stand now, and for those that stand
/// nowhere, where that season's plan puts them.
Result<placement::Standing> standing_in(const scene::Scene& scene,
                                        const placement::HarmPeriod& season, int threads,
                                        Terminal& terminal) {
    placement::Standing standing = placement::standing_now(scene, scene::spots_of(scene));
    const bool all_stand = std::all_of(standing.begin(), standing.end(),
                                       [](const auto& spot) { return spot.has_value(); });
    if (all_stand) return standing;
    const auto table = season_table(scene, season, standing, threads, terminal);
    if (!table) return tl::unexpected(table.error());
    return placement::plan_season(scene, *table, {.keeps_standing = true}).spot_of_row;
}

}  // namespace

Result<void> run(const MovesArguments& arguments, Terminal& terminal) {
    const PlanFiles files{.scene = arguments.write, .picture = arguments.picture};
    if (auto good = check_plan_files(files); !good) return good;
    const auto file = open_plannable_scene(arguments.common, terminal);
    if (!file) return tl::unexpected(file.error());
    const scene::Scene& scene = file->scene();
    const int year = scene::year_for(scene, arguments.year);
    const auto ending = dates_asked(scene, {.season = arguments.from_season, .year = year});
    if (!ending) return tl::unexpected(ending.error());
    const auto beginning = season_after(scene, arguments.to_season, ending->range.from, year);
    if (!beginning) return tl::unexpected(beginning.error());

    const int threads = arguments.common.threads;
    const auto standing =
        standing_in(scene, {.season = ending->season, .dates = ending->range}, threads, terminal);
    if (!standing) return tl::unexpected(standing.error());
    const auto table = season_table(scene, *beginning, *standing, threads, terminal);
    if (!table) return tl::unexpected(table.error());
    const std::optional<int> lifts = arguments.lifts ? arguments.lifts : scene.lifting.lifts;
    const auto moves = placement::plan_moves(
        scene, *table, placement::plan_season(scene, *table, {.lifts = lifts}));
    auto period = plan_period(scene, *table, false);
    if (!period) return tl::unexpected(period.error());

    const output::MovesAnswer answer{
        .period = *period, .moves = moves, .from_season = ending->season};
    const auto draw = [&](const output::PictureOptions& options) {
        return output::draw_moves(answer, options);
    };
    if (auto written = write_plan_files(files, *file, *table, moves.plan.spot_of_row, draw);
        !written) {
        return written;
    }
    write_answer(
        arguments.common.format, terminal,
        [&] { return output::moves_json(answer, envelope_of(*file, "moves", *table)); },
        [&] { return output::moves_csv(answer); },
        [&] { return output::moves_text(answer) + written_words(files); });
    return {};
}

}  // namespace sunfleck::cli
