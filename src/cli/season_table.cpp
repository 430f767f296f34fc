#include "cli/season_table.h"

#include "cli/asked.h"
#include "cli/screen_progress.h"
#include "sunfleck/exposure/exposure.h"
#include "sunfleck/exposure/sun_arc.h"
#include "sunfleck/scene/seasons.h"
#include "sunfleck/scene/spots.h"
#include "sunfleck/sun/sun_day.h"

#include <unistd.h>

#include <filesystem>
#include <system_error>
#include <utility>

namespace sunfleck::cli {

namespace {

tl::unexpected<Problems> no_plan(const scene::Scene& scene, const char* message, const char* mend) {
    return failure({.kind = ProblemKind::no_answer,
                    .code = "nothing_to_place",
                    .file = scene.file,
                    .message = message,
                    .mend = mend});
}

/// The season on that date, with the dates of the time around it.
Result<placement::HarmPeriod> season_on(const scene::Scene& scene, Date date) {
    for (const scene::Season& season : scene.seasons) {
        for (const int year : {year_of(date), year_of(date) - 1}) {
            const auto dates = scene::season_range(scene, season.name, year);
            if (!dates) return tl::unexpected(dates.error());
            if (dates->from <= date && date <= dates->to) {
                return placement::HarmPeriod{.season = season.name, .dates = *dates};
            }
        }
    }
    return placement::HarmPeriod{.season = {}, .dates = {date, date}};
}

}  // namespace

Result<AskedPeriod> period_asked(const scene::Scene& scene, const WhenArguments& when) {
    const auto dates = dates_asked(scene, when);
    if (!dates) return tl::unexpected(dates.error());
    if (!dates->is_default) {
        return AskedPeriod{.period = {.season = dates->season, .dates = dates->range}};
    }
    auto period = season_on(scene, dates->range.from);
    if (!period) return tl::unexpected(period.error());
    return AskedPeriod{.period = std::move(*period), .is_default = true};
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

Result<void> require_folder(const std::string& path) {
    if (path.empty()) return {};
    std::error_code error;
    const std::filesystem::path file(path);
    const auto trouble = [&](const char* message, const char* mend) {
        return failure({.kind = ProblemKind::file,
                        .code = "file_not_saved",
                        .file = path,
                        .message = message,
                        .mend = mend});
    };
    if (std::filesystem::is_directory(file, error)) {
        return trouble("This is a folder.", "Name a file to write.");
    }
    const std::filesystem::path folder = file.has_parent_path() ? file.parent_path() : ".";
    if (!std::filesystem::is_directory(folder, error)) {
        return trouble("There is no such folder to write to.", "Check the name and the folder.");
    }
    if (::access(folder.c_str(), W_OK) != 0) {
        return trouble("Nothing may be written in that folder.", "Choose another place.");
    }
    return {};
}

std::string written_words(const std::string& scene, const std::string& picture) {
    std::string text;
    if (!scene.empty()) text += "Wrote " + scene + ": the scene with these places.\n";
    if (!picture.empty()) text += "Wrote " + picture + ".\n";
    return text.empty() ? text : "\n" + text;
}

Result<placement::HarmTable> season_table(const scene::Scene& scene,
                                          const placement::HarmPeriod& period,
                                          const placement::Standing& standing, int threads,
                                          Terminal& terminal) {
    const auto spots = scene::spots_of(scene);
    ScreenProgress progress(terminal);
    const auto exposure = exposure::compute_exposure(
        scene, {.from = period.dates.from,
                .to = period.dates.to,
                .day_step = day_step_over(period.dates),
                .receivers = placement::receivers_needed(scene, spots, period.dates),
                .thread_count = threads,
                .progress = progress.callback()});
    if (!exposure) return tl::unexpected(exposure.error());
    return placement::make_harm_table(scene, spots, period, *exposure, standing);
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

Result<void> save_plan(const scene::SceneFile& file, const placement::HarmTable& table,
                       const placement::Standing& plan, const std::string& path) {
    if (path.empty()) return {};
    std::vector<std::string> ids(file.scene().pots.size());
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        if (table.rows[row].copy == 1 && plan[row]) {
            ids[table.rows[row].pot] = table.spots[*plan[row]].id;
        }
    }
    return file.with_pots_at(ids).save(path);
}

}  // namespace sunfleck::cli
