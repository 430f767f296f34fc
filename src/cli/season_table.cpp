#include "cli/season_table.h"

#include "cli/asked.h"
#include "cli/screen_progress.h"
#include "sunfleck/exposure/sun_arc.h"
#include "sunfleck/placement/traced_table.h"
#include "sunfleck/scene/seasons.h"
#include "sunfleck/scene/spots.h"
#include "sunfleck/sun/sun_day.h"

namespace sunfleck::cli {

namespace {

tl::unexpected<Problems> no_plan(const scene::Scene& scene, const char* message, const char* mend) {
    return failure({.kind = ProblemKind::no_answer,
                    .code = "nothing_to_place",
                    .file = scene.file,
                    .message = message,
                    .mend = mend});
}

}  // namespace

Result<AskedPeriod> period_asked(const scene::Scene& scene, const WhenArguments& when) {
    const auto dates = dates_asked(scene, when);
    if (!dates) return tl::unexpected(dates.error());
    if (!dates->is_default) {
        return AskedPeriod{.period = {.season = dates->season, .dates = dates->range}};
    }
    const Date date = dates->range.from;
    const auto season = scene::season_on(scene, date);
    const auto period = season ? placement::HarmPeriod{season->name, season->dates}
                               : placement::HarmPeriod{{}, {date, date}};
    return AskedPeriod{.period = period, .is_default = true};
}

Result<scene::SceneFile> open_plannable_scene(const CommonArguments& common, Terminal& terminal) {
    auto file = open_scene(common, terminal);
    if (!file) return file;
    const scene::Scene& scene = file->scene();
    if (scene.pots.empty()) {
        return no_plan(scene, "The scene has no pots.",
                       "Add some under \"pots\", or take --pots FILE.");
    }
    if (scene::spots_of(scene).empty()) {
        return no_plan(scene, "The scene has no spots.", "Add a bench or a post stand.");
    }
    if (const auto weights = placement::harm_weights_of(scene); !weights) {
        return tl::unexpected(weights.error());
    }
    return file;
}

Result<placement::HarmTable> season_table(const scene::Scene& scene,
                                          const placement::HarmPeriod& period,
                                          const placement::Standing& standing, int threads,
                                          Terminal& terminal) {
    ScreenProgress progress(terminal);
    return placement::trace_harm_table(scene, period, standing, threads, progress.callback());
}

Result<output::PlanPeriod> plan_period(const scene::Scene& scene, const placement::HarmTable& table,
                                       bool is_default_season) {
    auto zone = sun::TimeZone::find(scene.site.time_zone);
    if (!zone) return tl::unexpected(zone.error());
    const auto hot = [&](Date date) {
        return exposure::hot_hours(sun::sun_day(date, scene.site.place, *zone));
    };
    return output::PlanPeriod{.scene = scene,
                              .table = table,
                              .zone = *zone,
                              .is_default_season = is_default_season,
                              .hot_on_first = hot(table.dates.from),
                              .hot_on_last = hot(table.dates.to)};
}

output::Envelope envelope_of(const scene::SceneFile& file, const std::string& command,
                             const placement::HarmTable& table) {
    return {.command = command,
            .scene_name = file.scene().site.name,
            .scene_file = file.scene().file,
            .year = year_of(table.dates.from),
            .time_zone = file.scene().site.time_zone,
            .warnings = file.warnings()};
}

}  // namespace sunfleck::cli
