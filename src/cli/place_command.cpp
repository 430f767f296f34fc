#include "cli/asked.h"
#include "cli/commands.h"
#include "cli/season_table.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/placement_report.h"
#include "sunfleck/placement/season_plan.h"
#include "sunfleck/scene/spots.h"

#include <ostream>

namespace sunfleck::cli {

Result<void> run(const PlaceArguments& arguments, Terminal& terminal) {
    const auto file = open_scene(arguments.common, terminal);
    if (!file) return tl::unexpected(file.error());
    const scene::Scene& scene = file->scene();
    if (auto ready = require_pots_and_spots(scene); !ready) return ready;
    const auto dates = dates_asked(scene, arguments.when);
    if (!dates) return tl::unexpected(dates.error());
    const auto table = season_table(scene, {.season = dates->season, .dates = dates->range},
                                    placement::standing_now(scene, scene::spots_of(scene)),
                                    arguments.common.threads);
    if (!table) return tl::unexpected(table.error());
    const auto plan = placement::plan_season(scene, *table);

    if (!arguments.write.empty()) {
        const auto planned = file->with_pots_at(spots_of_pots(scene, *table, plan.spot_of_row));
        if (auto saved = planned.save(arguments.write); !saved) return saved;
    }
    const output::PlaceAnswer answer{.scene = scene, .table = *table, .plan = plan};
    switch (arguments.common.format) {
        case Format::json:
            terminal.out << output::place_json(answer, {.command = "place",
                                                        .scene_name = scene.site.name,
                                                        .scene_file = scene.file,
                                                        .year = year_of(dates->range.from),
                                                        .time_zone = scene.site.time_zone,
                                                        .warnings = file->warnings()});
            break;
        case Format::csv:
            terminal.out << output::place_csv(answer);
            break;
        case Format::table:
            terminal.out << output::place_text(answer);
            break;
    }
    return {};
}

}  // namespace sunfleck::cli
