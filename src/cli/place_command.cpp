#include "cli/answer_format.h"
#include "cli/commands.h"
#include "cli/plan_files.h"
#include "cli/season_table.h"
#include "sunfleck/output/placement_report.h"
#include "sunfleck/output/plan_picture.h"
#include "sunfleck/placement/season_plan.h"
#include "sunfleck/scene/spots.h"

namespace sunfleck::cli {

Result<void> run(const PlaceArguments& arguments, Terminal& terminal) {
    const PlanFiles files{.scene = arguments.write, .picture = arguments.picture};
    if (auto good = check_plan_files(files); !good) return good;
    const auto file = open_plannable_scene(arguments.common, terminal);
    if (!file) return tl::unexpected(file.error());
    const scene::Scene& scene = file->scene();
    const auto asked = period_asked(scene, arguments.when);
    if (!asked) return tl::unexpected(asked.error());
    const auto table =
        season_table(scene, asked->period, placement::standing_now(scene, scene::spots_of(scene)),
                     arguments.common.threads, terminal);
    if (!table) return tl::unexpected(table.error());
    const auto plan = placement::plan_season(scene, *table);
    const auto period = plan_period(scene, *table, asked->is_default);
    if (!period) return tl::unexpected(period.error());

    const output::PlaceAnswer answer{.period = *period, .plan = plan};
    const auto draw = [&](const output::PictureOptions& options) {
        return output::draw_place(answer, options);
    };
    if (auto written = write_plan_files(files, *file, *table, plan.spot_of_row, draw); !written) {
        return written;
    }
    write_answer(
        arguments.common.format, terminal,
        [&] { return output::place_json(answer, envelope_of(*file, "place", *table)); },
        [&] { return output::place_csv(answer); },
        [&] { return output::place_text(answer) + written_words(files); });
    return {};
}

}  // namespace sunfleck::cli
