#include "cli/answer_format.h"
#include "cli/asked.h"
#include "cli/asked_spots.h"
#include "cli/commands.h"
#include "cli/saved_picture.h"
#include "cli/screen_progress.h"
#include "cli/spot_receivers.h"
#include "sunfleck/exposure/exposure.h"
#include "sunfleck/exposure/sun_arc.h"
#include "sunfleck/output/exposure_report.h"
#include "sunfleck/output/picture.h"
#include "sunfleck/scene/spots.h"

#include <utility>

namespace sunfleck::cli {
namespace {

using exposure::ReceiverKind;
using exposure::ReceiverRequest;

// Half the height of a middling pot, where no pot stands to say its own.
constexpr double bare_wall_height_m = 0.05;

void add_receivers(const scene::Scene& scene, const scene::Spot& spot, std::size_t index,
                   const ExposureArguments& arguments, std::vector<ReceiverRequest>& receivers) {
    ReceiverRequest crown = crown_receiver(scene, spot, index);
    crown.height_m = arguments.receiver_height_m.value_or(crown.height_m);
    receivers.push_back(crown);
    if (!arguments.pot_walls) return;
    const scene::Pot* pot = pot_at(scene, spot);
    const double wall_height_m = pot != nullptr ? 0.5 * pot->pot_height_m : bare_wall_height_m;
    for (const ReceiverKind kind :
         {ReceiverKind::wall_n, ReceiverKind::wall_e, ReceiverKind::wall_s, ReceiverKind::wall_w}) {
        receivers.push_back({.spot = index, .kind = kind, .height_m = wall_height_m});
    }
}

bool has_no_sun(const exposure::ReceiverExposure& receiver) {
    return receiver.receiver.kind == ReceiverKind::crown && receiver.most.effective_min <= 0.0;
}

// Spots without sun on the asked days are asked about for the whole year.
Result<std::vector<output::SunlessSpot>> sunless_spots(const scene::Scene& scene,
                                                       const exposure::ExposureTable& table,
                                                       int threads) {
    std::vector<output::SunlessSpot> sunless;
    std::vector<ReceiverRequest> asked;
    for (std::size_t i = 0; i < table.receivers.size(); ++i) {
        if (!has_no_sun(table.receivers[i])) continue;
        sunless.push_back({.receiver = i, .season = {}});
        asked.push_back(table.receivers[i].receiver);
    }
    if (asked.empty()) return sunless;
    auto seasons = exposure::sunny_seasons(scene, asked, year_of(table.from), threads);
    if (!seasons) return tl::unexpected(seasons.error());
    for (std::size_t i = 0; i < sunless.size(); ++i) sunless[i].season = (*seasons)[i];
    return sunless;
}

Result<exposure::ExposureTable> compute(const scene::Scene& scene, const AskedDates& dates,
                                        const std::vector<ReceiverRequest>& receivers, int threads,
                                        Terminal& terminal) {
    ScreenProgress progress(terminal);
    return exposure::compute_exposure(
        scene, {.from = dates.range.from,
                .to = dates.range.to,
                .day_step = exposure::usual_day_step(dates.range.from, dates.range.to),
                .receivers = receivers,
                .thread_count = threads,
                .progress = progress.callback()});
}

/// The day rings of the middle of the dates asked, where a picture was asked for.
Result<void> draw_rings(const scene::Scene& scene, const exposure::ExposureTable& table,
                        const std::string& path) {
    const Date middle = add_days(table.from, days_between(table.from, table.to) / 2);
    return save_picture(path, [&](const output::PictureOptions& options) {
        return output::draw_garden({.scene = scene,
                                    .date = output::nearest_day(table.receivers, middle),
                                    .shadows_at_s = {},
                                    .receivers = table.receivers},
                                   options);
    });
}

void print(const output::ExposureAnswer& answer, const scene::SceneFile& file,
           const ExposureArguments& arguments, Terminal& terminal) {
    const scene::Scene& scene = file.scene();
    write_answer(
        arguments.common.format, terminal,
        [&] {
            return output::exposure_json(answer, {.command = "exposure",
                                                  .scene_name = scene.site.name,
                                                  .scene_file = scene.file,
                                                  .year = year_of(answer.table.from),
                                                  .time_zone = scene.site.time_zone,
                                                  .warnings = file.warnings()});
        },
        [&] { return output::exposure_csv(answer, arguments.hours); },
        [&] {
            return arguments.hours ? output::exposure_hours_text(answer)
                                   : output::exposure_text(answer);
        });
}

}  // namespace

Result<void> run(const ExposureArguments& arguments, Terminal& terminal) {
    if (auto named = check_picture_name(arguments.picture); !named) return named;
    const auto file = open_scene(arguments.common, terminal);
    if (!file) return tl::unexpected(file.error());
    const scene::Scene& scene = file->scene();
    const auto dates = dates_asked(scene, arguments.when);
    if (!dates) return tl::unexpected(dates.error());
    const auto zone = sun::TimeZone::find(scene.site.time_zone);
    if (!zone) return tl::unexpected(zone.error());
    std::vector<scene::Spot> spots = scene::spots_of(scene);
    const auto chosen = spots_asked(scene, spots, arguments.spots);
    if (!chosen) return tl::unexpected(chosen.error());

    std::vector<ReceiverRequest> receivers;
    for (const std::size_t index : *chosen) {
        add_receivers(scene, spots[index], index, arguments, receivers);
    }
    auto table = compute(scene, *dates, receivers, arguments.common.threads, terminal);
    if (!table) return tl::unexpected(table.error());
    auto sunless = sunless_spots(scene, *table, arguments.common.threads);
    if (!sunless) return tl::unexpected(sunless.error());
    if (auto ready = ready_to_write(); !ready) return ready;
    if (auto drawn = draw_rings(scene, *table, arguments.picture); !drawn) return drawn;

    const auto hot = [&](Date date) {
        return exposure::hot_hours(sun::sun_day(date, scene.site.place, *zone));
    };
    const output::ExposureAnswer answer{.garden = scene.site.name,
                                        .spots = std::move(spots),
                                        .table = std::move(*table),
                                        .zone = *zone,
                                        .season = dates->season,
                                        .is_default_day = dates->is_default,
                                        .hot_on_first = hot(dates->range.from),
                                        .hot_on_last = hot(dates->range.to),
                                        .sunless = std::move(*sunless)};
    print(answer, *file, arguments, terminal);
    return {};
}

}  // namespace sunfleck::cli
