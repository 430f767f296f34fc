#include "cli/answer_format.h"
#include "cli/commands.h"
#include "cli/saved_picture.h"
#include "cli/season_table.h"
#include "sunfleck/output/placement_report.h"
#include "sunfleck/output/plan_picture.h"
#include "sunfleck/placement/season_plan.h"
#include "sunfleck/scene/spots.h"

namespace sunfleck::cli {

Result<void> run(const PlaceArguments& arguments, Terminal& terminal) {
    if (auto named = check_picture_name(arguments.picture); !named) return named;
    const auto file = open_plannable_scene(arguments.common, terminal);
    if (!file) return tl::unexpected(file.error());
    const scene::Scene& scene = file->scene();
    if (auto place = require_folder(arguments.write); !place) return place;
    if (auto place = require_folder(arguments.picture); !place) return place;
    const auto asked = period_asked(scene, arguments.when);
    if (!asked) return tl::unexpected(asked.error());
    const auto table =
        season_table(scene, asked->period, placement::standing_now(scene, scene::spots_of(scene)),
                     arguments.common.threads, terminal);
    if (!table) return tl::unexpected(table.error());
    const auto plan = placement::plan_season(scene, *table);
    const auto period = plan_period(scene, *table, asked->is_default);
    if (!period) return tl::unexpected(period.error());

    if (auto ready = ready_to_write(); !ready) return ready;
    if (auto saved = save_plan(*file, *table, plan.spot_of_row, arguments.write); !saved) {
        return saved;
    }
    const output::PlaceAnswer answer{.period = *period, .plan = plan};
    const auto drawn = save_picture(arguments.picture, [&](const output::PictureOptions& options) {
        return output::draw_place(answer, options);
    });
    if (!drawn) return drawn;
    write_answer(
        arguments.common.format, terminal,
        [&] { return output::place_json(answer, envelope_of(*file, "place", *table)); },
        [&] { return output::place_csv(answer); },
        [&] {
            return output::place_text(answer) + written_words(arguments.write, arguments.picture);
        });
    return {};
}

}  // namespace sunfleck::cli
