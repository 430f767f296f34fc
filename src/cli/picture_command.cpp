#include "cli/asked.h"
#include "cli/commands.h"
#include "cli/screen_progress.h"
#include "cli/spot_receivers.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/base/text_file.h"
#include "sunfleck/output/picture.h"
#include "sunfleck/output/written_files.h"
#include "sunfleck/scene/spots.h"

#include <filesystem>
#include <ostream>

namespace sunfleck::cli {
namespace {

/// What is written where, and how it is told in a line.
struct Drawing {
    std::filesystem::path path;
    output::PictureFormat format = output::PictureFormat::png;
    std::string bytes;
    std::string told;
    int year = 0;
};

Result<std::optional<int>> clock_asked(const std::string& text) {
    if (text.empty()) return std::optional<int>();
    const auto is_digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
    const bool is_clock = text.size() == 5 && text[2] == ':' && is_digit(0) && is_digit(1) &&
                          is_digit(3) && is_digit(4);
    const int hour = is_clock ? std::stoi(text.substr(0, 2)) : 99;
    const int minute = is_clock ? std::stoi(text.substr(3, 2)) : 99;
    if (hour > 23 || minute > 59) {
        return failure({.kind = ProblemKind::usage,
                        .code = "clock_time_unclear",
                        .message = "\"" + text + "\" is no time of day.",
                        .mend = "Give it in 24 hours, as --at 14:30."});
    }
    return std::optional<int>(3600 * hour + 60 * minute);
}

Result<exposure::ExposureTable> sun_of(const scene::Scene& scene, const scene::DateRange& dates,
                                       std::vector<exposure::ReceiverRequest> receivers,
                                       const PictureArguments& arguments, Terminal& terminal) {
    ScreenProgress progress(terminal);
    return exposure::compute_exposure(scene, {.from = dates.from,
                                              .to = dates.to,
                                              .day_step = 1,
                                              .receivers = std::move(receivers),
                                              .thread_count = arguments.common.threads,
                                              .progress = progress.callback()});
}

Result<void> draw_spot_year(const scene::Scene& scene, const PictureArguments& arguments,
                            const output::PictureOptions& options, Terminal& terminal,
                            Drawing& drawing) {
    const std::vector<scene::Spot> spots = scene::spots_of(scene);
    const auto index = scene::find_spot(spots, arguments.spot);
    if (!index) {
        return failure({.kind = ProblemKind::usage,
                        .code = "unknown_spot",
                        .file = scene.file,
                        .message = "There is no spot \"" + arguments.spot + "\".",
                        .mend = "Name one as A-3: the bench's id and the spot's number."});
    }
    drawing.year = scene::year_for(scene, arguments.when.year);
    const auto table =
        sun_of(scene, {make_date(drawing.year, 1, 1), make_date(drawing.year, 12, 31)},
               {crown_receiver(scene, spots[*index], *index)}, arguments, terminal);
    if (!table) return tl::unexpected(table.error());
    auto bytes = output::draw_year(
        {.scene = scene, .spot = spots[*index], .receiver = table->receivers.front()}, options);
    if (!bytes) return tl::unexpected(bytes.error());
    drawing.bytes = std::move(*bytes);
    drawing.told = "the year " + std::to_string(drawing.year) + " at " + spots[*index].name;
    return {};
}

Result<void> draw_garden_day(const scene::Scene& scene, const PictureArguments& arguments,
                             const output::PictureOptions& options, Terminal& terminal,
                             Drawing& drawing) {
    const auto dates = dates_asked(scene, arguments.when);
    if (!dates) return tl::unexpected(dates.error());
    const auto at = clock_asked(arguments.at);
    if (!at) return tl::unexpected(at.error());
    // One picture shows one day: the middle one of a range or season.
    const Date date =
        add_days(dates->range.from, days_between(dates->range.from, dates->range.to) / 2);
    const std::vector<scene::Spot> spots = scene::spots_of(scene);
    std::vector<exposure::ReceiverRequest> receivers;
    for (std::size_t i = 0; i < spots.size(); ++i) {
        receivers.push_back(crown_receiver(scene, spots[i], i));
    }
    const auto table = sun_of(scene, {date, date}, std::move(receivers), arguments, terminal);
    if (!table) return tl::unexpected(table.error());
    auto bytes = output::draw_garden(
        {.scene = scene, .date = date, .shadows_at_s = *at, .receivers = table->receivers},
        options);
    if (!bytes) return tl::unexpected(bytes.error());
    drawing.bytes = std::move(*bytes);
    drawing.year = year_of(date);
    drawing.told = scene.site.name + " on " + date_and_year_words(date) +
                   (*at ? ", shadows at " + clock_words(**at) : std::string());
    return {};
}

Result<void> prepare(const PictureArguments& arguments, output::PictureOptions& options,
                     Drawing& drawing) {
    drawing.path = arguments.output.empty()
                       ? std::filesystem::path(arguments.common.scene).stem().concat(".png")
                       : std::filesystem::path(arguments.output);
    const auto format = output::picture_format(drawing.path);
    if (!format) return tl::unexpected(format.error());
    drawing.format = options.format = *format;
    if (arguments.size.empty()) return {};
    const auto size = output::parse_picture_size(arguments.size);
    if (!size) return tl::unexpected(size.error());
    options.size = *size;
    return {};
}

}  // namespace

Result<void> run(const PictureArguments& arguments, Terminal& terminal) {
    output::PictureOptions options;
    Drawing drawing;
    if (auto ready = prepare(arguments, options, drawing); !ready) return ready;
    const auto file = open_scene(arguments.common, terminal);
    if (!file) return tl::unexpected(file.error());
    const scene::Scene& scene = file->scene();
    auto drawn = arguments.spot.empty()
                     ? draw_garden_day(scene, arguments, options, terminal, drawing)
                     : draw_spot_year(scene, arguments, options, terminal, drawing);
    if (!drawn) return drawn;
    if (auto ready = ready_to_write(); !ready) return ready;
    if (auto saved = save_text_file(drawing.path, drawing.bytes); !saved) return saved;
    const std::string path = drawing.path.string();
    if (arguments.common.format == Format::json) {
        const std::string kind = drawing.format == output::PictureFormat::png ? "png" : "svg";
        terminal.out << output::written_files_json({.command = "picture",
                                                    .scene_name = scene.site.name,
                                                    .scene_file = scene.file,
                                                    .year = drawing.year,
                                                    .time_zone = scene.site.time_zone,
                                                    .warnings = file->warnings()},
                                                   {{.path = path, .kind = kind}});
    } else {
        terminal.out << "Wrote " << path << ": " << drawing.told << ".\n";
    }
    return {};
}

}  // namespace sunfleck::cli
