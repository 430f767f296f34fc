#include "cli/asked.h"

#include "sunfleck/output/check_report.h"

#include <ostream>

namespace sunfleck::cli {
namespace {

tl::unexpected<Problems> usage(std::string code, std::string message, std::string mend) {
    return failure({.kind = ProblemKind::usage,
                    .code = std::move(code),
                    .message = std::move(message),
                    .mend = std::move(mend)});
}

Result<scene::DateRange> range_asked(Date from, Date to) {
    const int days = days_between(from, to);
    if (days < 0) {
        return usage(
            "range_backwards",
            "The range ends on " + iso_date(to) + ", before it begins on " + iso_date(from) + ".",
            "Swap --from and --to.");
    }
    if (days > 366) {
        return usage("range_too_long", "The range covers " + std::to_string(days + 1) + " days.",
                     "Ask for a year at most.");
    }
    return scene::DateRange{from, to};
}

/// The season's name as the scene writes it.
std::string own_name(const scene::Scene& scene, const std::string& typed,
                     const scene::DateRange& range, int year) {
    for (const scene::Season& season : scene.seasons) {
        const auto dates = scene::season_range(scene, season.name, year);
        if (dates && dates->from == range.from) return season.name;
    }
    return typed;
}

Result<AskedDates> season_asked(const scene::Scene& scene, const std::string& name, int year) {
    auto range = scene::season_range(scene, name, year);
    if (!range) {
        for (Problem& problem : range.error()) problem.kind = ProblemKind::usage;
        return tl::unexpected(range.error());
    }
    return AskedDates{.range = *range, .season = own_name(scene, name, *range, year)};
}

}  // namespace

Result<scene::SceneFile> open_scene(const CommonArguments& common, Terminal& terminal) {
    auto file = scene::SceneFile::read(common.scene);
    if (!file) return file;
    if (!common.pots.empty()) {
        if (auto used = file->use_pots_csv(common.pots); !used) {
            return tl::unexpected(used.error());
        }
    }
    for (const Problem& warning : file->warnings()) {
        terminal.err << output::problem_text(warning);
    }
    return file;
}

Result<AskedDates> dates_asked(const scene::Scene& scene, const WhenArguments& when) {
    const bool has_range = when.from.has_value() || when.to.has_value();
    const int ways = (when.date ? 1 : 0) + (has_range ? 1 : 0) + (when.season.empty() ? 0 : 1);
    if (ways > 1) {
        return usage("dates_twice", "The dates are asked for in more than one way.",
                     "Take --date, or --from with --to, or --season.");
    }
    if (when.date) return AskedDates{.range = {*when.date, *when.date}};
    if (has_range) {
        if (!when.from || !when.to) {
            return usage("range_half", "Half of the range is missing.",
                         "Give both --from and --to.");
        }
        return range_asked(*when.from, *when.to).map([](const scene::DateRange& range) {
            return AskedDates{.range = range};
        });
    }
    const int year = scene::year_for(scene, when.year);
    if (!when.season.empty()) return season_asked(scene, when.season, year);
    const Date day = scene::midsummer_day(scene, year);
    return AskedDates{.range = {day, day}, .is_default = true};
}

}  // namespace sunfleck::cli
