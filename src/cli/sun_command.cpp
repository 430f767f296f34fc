#include "cli/asked.h"
#include "cli/asked_instants.h"
#include "cli/commands.h"
#include "sunfleck/output/check_report.h"
#include "sunfleck/output/sun_report.h"

#include <ostream>

namespace sunfleck::cli {
namespace {

Problem usage(std::string code, std::string message, std::string mend) {
    return {.kind = ProblemKind::usage,
            .code = std::move(code),
            .message = std::move(message),
            .mend = std::move(mend)};
}

/// Adds a problem when the option's number is outside its range or no number at all.
void check_range(const std::optional<double>& value, const char* option, double least, double most,
                 Problems& problems) {
    if (!value || (*value >= least && *value <= most)) return;
    const auto whole = [](double number) { return std::to_string(static_cast<int>(number)); };
    problems.push_back(usage(
        "value_out_of_range",
        std::string(option) + " must lie between " + whole(least) + " and " + whole(most) + ".",
        "Check its sign and unit."));
}

Problems wrong_options(const SunArguments& a) {
    Problems problems;
    const bool has_scene = !a.common.scene.empty();
    const bool has_place = a.latitude_deg || a.longitude_deg || a.elevation_m;
    if (has_scene && (has_place || !a.time_zone.empty())) {
        problems.push_back(usage("place_twice", "Both a scene and a place are given.",
                                 "Leave out the scene, or the place's options."));
    } else if (!has_scene && !(a.latitude_deg && a.longitude_deg)) {
        problems.push_back(usage("no_place", "No place is given to watch the sun from.",
                                 "Name a scene, or give --latitude, --longitude and --zone."));
    }
    const bool has_dates = a.when.from || a.when.to || !a.when.season.empty() || a.when.year;
    if (!a.at.empty() && has_dates) {
        problems.push_back(usage("dates_unused", "--at asks for instants, not for a range of days.",
                                 "Leave out --from, --to, --season and --year."));
    }
    check_range(a.latitude_deg, "--latitude", -90, 90, problems);
    check_range(a.longitude_deg, "--longitude", -180, 180, problems);
    check_range(a.elevation_m, "--elevation", -500, 9000, problems);
    check_range(a.pressure_hpa, "--pressure", 300, 1100, problems);
    check_range(a.temperature_c, "--temperature", -70, 60, problems);
    return problems;
}

/// A scene that holds nothing but the place of the options.
scene::Scene bare_scene(const SunArguments& a) {
    scene::Scene scene;
    scene.site.place = {.latitude = Latitude::degrees(*a.latitude_deg),
                        .longitude = Longitude::degrees(*a.longitude_deg),
                        .elevation_m = a.elevation_m.value_or(0.0)};
    scene.site.time_zone = a.time_zone.empty() ? "UTC" : a.time_zone;
    return scene;
}

Result<output::SunPlace> watched_place(const scene::Site& site, const SunArguments& a) {
    auto zone = sun::TimeZone::find(site.time_zone);
    if (!zone) {
        if (a.common.scene.empty()) {
            for (Problem& problem : zone.error()) problem.kind = ProblemKind::usage;
        }
        return tl::unexpected(zone.error());
    }
    const sun::Air standard;
    return output::SunPlace{
        .name = site.name,
        .place = site.place,
        .zone = *zone,
        .air = {.pressure_hpa = a.pressure_hpa.value_or(standard.pressure_hpa),
                .temperature_c = a.temperature_c.value_or(standard.temperature_c)}};
}

/// The warning that the clock shown is nobody's.
Problem no_zone_warning() {
    Problem warning = usage("no_zone", "No time zone is given: times are universal time.",
                            "Add --zone, such as --zone Europe/London.");
    warning.severity = Severity::warning;
    return warning;
}

struct Watch {
    scene::Scene scene;
    output::SunPlace place;
    output::Envelope envelope;
};

Result<Watch> watch_asked(const SunArguments& a, Terminal& terminal) {
    if (Problems problems = wrong_options(a); !problems.empty()) return tl::unexpected(problems);
    scene::Scene scene;
    Problems warnings;
    if (a.common.scene.empty()) {
        scene = bare_scene(a);
        if (a.time_zone.empty()) {
            warnings.push_back(no_zone_warning());
            terminal.err << output::problem_text(warnings.back());
        }
    } else {
        auto file = open_scene(a.common, terminal);
        if (!file) return tl::unexpected(file.error());
        scene = file->scene();
        warnings = file->warnings();
    }
    return watched_place(scene.site, a).map([&](output::SunPlace place) {
        output::Envelope envelope{.command = "sun",
                                  .scene_name = scene.site.name,
                                  .scene_file = a.common.scene,
                                  .year = std::nullopt,
                                  .time_zone = place.zone.name(),
                                  .warnings = std::move(warnings)};
        return Watch{std::move(scene), std::move(place), std::move(envelope)};
    });
}

Result<void> answer_dates(Watch& watch, const SunArguments& a, Terminal& terminal) {
    const auto asked = dates_asked(watch.scene, a.when);
    if (!asked) return tl::unexpected(asked.error());
    const auto dates = output::sun_dates(asked->range.from, asked->range.to, watch.place);
    watch.envelope.year = year_of(asked->range.from);
    switch (a.common.format) {
        case Format::json:
            terminal.out << output::sun_dates_json(watch.envelope, watch.place, dates);
            break;
        case Format::csv:
            terminal.out << output::sun_dates_csv(watch.place, dates);
            break;
        case Format::table: {
            const std::string note =
                asked->is_default ? "The year's longest day; --date takes another." : "";
            terminal.out << output::sun_dates_text(watch.place, dates, note);
            break;
        }
    }
    return {};
}

Result<void> answer_instants(Watch& watch, const SunArguments& a, Terminal& terminal) {
    const auto asked = instants_asked(a, watch.place.zone, terminal.in);
    if (!asked) return tl::unexpected(asked.error());
    for (const Problem& warning : asked->warnings) {
        terminal.err << output::problem_text(warning);
        watch.envelope.warnings.push_back(warning);
    }
    std::vector<output::SunInstant> instants;
    for (const UtcSeconds utc : asked->instants) {
        instants.push_back(output::sun_instant(utc, watch.place));
    }
    watch.envelope.year = year_of(watch.place.zone.clock(asked->instants.front()).date);
    const bool is_csv =
        a.common.format == Format::csv || (asked->is_stream && a.common.format == Format::table);
    if (a.common.format == Format::json) {
        terminal.out << output::sun_instants_json(watch.envelope, watch.place, instants);
    } else if (is_csv) {
        terminal.out << output::sun_instants_csv(watch.place, instants);
    } else {
        terminal.out << output::sun_instants_text(watch.place, instants);
    }
    return {};
}

}  // namespace

Result<void> run(const SunArguments& arguments, Terminal& terminal) {
    auto watch = watch_asked(arguments, terminal);
    if (!watch) return tl::unexpected(watch.error());
    return arguments.at.empty() ? answer_dates(*watch, arguments, terminal)
                                : answer_instants(*watch, arguments, terminal);
}

}  // namespace sunfleck::cli
