#include "output/garden_things.h"
#include "output/sheet.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/exposure/sun_arc.h"
#include "sunfleck/geometry/garden.h"
#include "sunfleck/output/day_arch.h"
#include "sunfleck/output/garden_plan.h"
#include "sunfleck/output/plan_marks.h"
#include "sunfleck/output/words.h"
#include "sunfleck/sun/sun_seen.h"

#include <algorithm>
#include <cstdlib>

namespace sunfleck::output {

namespace {

constexpr double sky_height = 116.0;
constexpr double side_margin = 16.0;
constexpr double legend_padding = 10.0;
constexpr double arch_width = 460.0;
constexpr double least_width_for_arch = 900.0;

/// The sun at the asked clock time.
struct ShadowHour {
    UtcSeconds instant;
    sun::SunSeen sun;
};

Result<ShadowHour> shadow_hour(const GardenPicture& picture, const sun::TimeZone& zone) {
    const auto instants = zone.instants(picture.date, *picture.shadows_at_s);
    if (instants.empty()) {
        return failure({.kind = ProblemKind::usage,
                        .code = "clock_time_skipped",
                        .message = "The clock skips " + clock_words(*picture.shadows_at_s) +
                                   " on " + date_words(picture.date) + ".",
                        .mend = "Ask for an hour later."});
    }
    return ShadowHour{instants.front(), sun::sun_seen(instants.front(), picture.scene.site.place)};
}

const exposure::DayExposure& day_nearest(const exposure::ReceiverExposure& receiver, Date date) {
    return *std::min_element(
        receiver.days.begin(), receiver.days.end(), [date](const auto& a, const auto& b) {
            return std::abs(days_between(date, a.date)) < std::abs(days_between(date, b.date));
        });
}

/// Everything that is known before the drawing begins.
struct GardenSheet {
    const GardenPicture& picture;
    sun::TimeZone zone;
    std::vector<scene::Spot> spots;
    scene::PlanFrame frame;
    geometry::Garden garden;
    sun::SunDay sun_day;
    exposure::HotHours hot;
    std::optional<ShadowHour> hour;
    std::optional<ShadowCaster> shadows;
};

std::string headline(const GardenSheet& sheet) {
    const auto& place = sheet.picture.scene.site.place;
    return date_and_year_words(sheet.picture.date) + " · " +
           place_words(place.latitude, place.longitude);
}

std::string sun_line(const GardenSheet& sheet) {
    std::string words;
    if (sheet.hour) {
        const std::string clock = clock_words(*sheet.picture.shadows_at_s);
        words = sheet.hour->sun.altitude.in_degrees() <= 0.0
                    ? "The sun is down at " + clock
                    : "Sun " + degrees_words(sheet.hour->sun.altitude) + " high in the " +
                          bearing_words(sheet.hour->sun.azimuth) + " at " + clock;
        words += " · ";
    }
    switch (sheet.sun_day.state) {
        case sun::DayState::polar_day:
            return words.empty() ? "The sun does not set" : words + "the sun does not set";
        case sun::DayState::polar_night:
            return "The sun does not rise on this day";
        case sun::DayState::normal:
        case sun::DayState::rise_only:
        case sun::DayState::set_only:
            break;
    }
    return words + (words.empty() ? "Hot hours " : "hot hours ") +
           clock_range_words(sheet.hot.from, sheet.hot.to, sheet.zone);
}

void draw_sky(Canvas& canvas, const GardenSheet& sheet, double width, const Palette& palette) {
    const SheetBox band = box_at({0.0, 0.0}, width, sky_height);
    canvas.fill_down(rectangle(band), palette.sky_top, palette.sky_low);
    canvas.stroke(line({0.0, sky_height}, {width, sky_height}),
                  {.colour = palette.ink, .width = 1.4});
    const bool has_arch = width >= least_width_for_arch;
    const double room = width - 48.0 - (has_arch ? arch_width + 24.0 : 0.0);
    const auto& name = sheet.picture.scene.site.name;
    canvas.text({24.0, 44.0}, canvas.cut_text(name.empty() ? "Garden" : name, 26.0, true, room),
                {.size = 26.0, .is_bold = true, .colour = palette.ink});
    canvas.text({24.0, 70.0}, canvas.cut_text(headline(sheet), 14.5, false, room),
                {.size = 14.5, .colour = palette.ink});
    canvas.text({24.0, 94.0}, canvas.cut_text(sun_line(sheet), 14.5, false, room),
                {.size = 14.5, .colour = palette.ink});
    if (!has_arch) return;
    const DayArch arch{.date = sheet.picture.date,
                       .place = sheet.picture.scene.site.place,
                       .at = sheet.hour ? std::optional(sheet.hour->instant) : std::nullopt};
    draw_day_arch(canvas, box_at({width - arch_width - 24.0, 8.0}, arch_width, sky_height - 14.0),
                  arch, sheet.zone, palette);
}

/// What lets some sun through in hatched shadow on the date: "a net", "a net or fence", or nothing.
std::string woven_words(const scene::Scene& scene, Date date) {
    const bool has_net =
        std::any_of(scene.cloths.begin(), scene.cloths.end(),
                    [&](const scene::Cloth& cloth) { return is_up(cloth.up, date); });
    const bool has_fence =
        std::any_of(scene.walls.begin(), scene.walls.end(),
                    [](const scene::Wall& wall) { return wall.porosity > 0.15; });
    if (has_net && has_fence) return "a net or fence";
    return has_net ? "a net" : has_fence ? "a fence" : "";
}

std::vector<LegendEntry> legend_of(const GardenSheet& sheet, const GardenPlan::Drawn& drawn) {
    std::vector<LegendEntry> entries;
    if (drawn.has_rings || drawn.has_ribbons) {
        entries.push_back({Swatch::full, "full sun (figure: hours)"});
        entries.push_back({Swatch::filtered, "filtered"});
        entries.push_back({Swatch::shade, "shade"});
    }
    if (drawn.has_marks || drawn.has_ribbons) entries.push_back({Swatch::hot_hours, "hot hours"});
    if (drawn.has_ribbons) entries.push_back({Swatch::hot_box, "full sun in the hot hours"});
    if (sheet.shadows && sheet.hour->sun.altitude.in_degrees() > 0.0) {
        entries.push_back(
            {Swatch::shadow, "shadow at " + clock_words(*sheet.picture.shadows_at_s)});
        const std::string woven = woven_words(sheet.picture.scene, sheet.picture.date);
        if (!woven.empty()) entries.push_back({Swatch::woven_shadow, "through " + woven});
    }
    return entries;
}

std::vector<SpotDay> spot_days(const GardenPicture& picture) {
    std::vector<SpotDay> days;
    for (const auto& receiver : picture.receivers) {
        if (receiver.receiver.kind != exposure::ReceiverKind::crown) continue;
        if (receiver.days.empty()) continue;
        days.push_back({receiver.receiver.spot, &day_nearest(receiver, picture.date)});
    }
    return days;
}

void draw(Canvas& canvas, const GardenSheet& sheet, SheetSize size, const Palette& palette) {
    canvas.fill(rectangle(box_at({}, size.width, size.height)), palette.page);
    // The legend's height is not known before the plan is drawn; two lines are always enough
    // for its entries on a sheet of usual width.
    const double legend_room = 2.0 * legend_padding + (size.width < 1100.0 ? 48.0 : 24.0);
    const SheetBox panel = box_at({0.0, sky_height}, size.width,
                                  std::max(size.height - sky_height - legend_room, 120.0));
    const PlanView view(shown_part(sheet.picture.scene), panel);
    GardenPlan plan(canvas, sheet.picture.scene, sheet.spots, sheet.picture.date, view, palette);
    GardenPlan::Drawn drawn;
    {
        const ClipScope clip(canvas, rectangle(panel));
        plan.draw_garden(sheet.garden, sheet.shadows ? &*sheet.shadows : nullptr);
        const std::vector<SpotDay> days = spot_days(sheet.picture);
        std::vector<bool> has_day(sheet.spots.size(), false);
        for (const SpotDay& day : days) has_day[day.spot] = true;
        plan.draw_free_spots(has_day);
        drawn = plan.draw_days(days, sheet.sun_day, sheet.zone.hours(sheet.picture.date));
        plan.draw_marks_and_names();
    }
    draw_sky(canvas, sheet, size.width, palette);
    canvas.stroke(line({0.0, panel.high.y}, {size.width, panel.high.y}),
                  {.colour = palette.ink, .width = 1.4});
    draw_legend(canvas, {side_margin + 8.0, panel.high.y + legend_padding},
                size.width - 2.0 * side_margin - 16.0, legend_of(sheet, drawn), palette);
}

/// As high as the part shown asks, within bounds that a screen and a page can show.
double natural_height(const scene::Scene& scene, double width) {
    const PlanBox part = shown_part(scene);
    const double plan = width * part.height() / part.width();
    return sky_height + 44.0 + std::clamp(plan, 0.34 * width, 0.95 * width);
}

}  // namespace

Date nearest_day(std::span<const exposure::ReceiverExposure> receivers, Date date) {
    if (receivers.empty() || receivers.front().days.empty()) return date;
    return day_nearest(receivers.front(), date).date;
}

Result<std::string> draw_garden(const GardenPicture& picture, const PictureOptions& options) {
    const auto zone = sun::TimeZone::find(picture.scene.site.time_zone);
    if (!zone) return tl::unexpected(zone.error());
    auto garden = geometry::build_garden(picture.scene);
    if (!garden) return tl::unexpected(garden.error());
    const sun::SunDay sun_day = sun::sun_day(picture.date, picture.scene.site.place, *zone);
    GardenSheet sheet{.picture = picture,
                      .zone = *zone,
                      .spots = scene::spots_of(picture.scene),
                      .frame = scene::PlanFrame(picture.scene),
                      .garden = std::move(*garden),
                      .sun_day = sun_day,
                      .hot = exposure::hot_hours(sun_day),
                      .hour = {},
                      .shadows = {}};
    if (picture.shadows_at_s) {
        const auto hour = shadow_hour(picture, *zone);
        if (!hour) return tl::unexpected(hour.error());
        sheet.hour = *hour;
        sheet.shadows.emplace(sheet.garden, geometry::optics_on(sheet.garden, picture.date),
                              sheet.frame, hour->sun.direction);
    }
    const SheetFormat format =
        sheet_format(options, [&](double width) { return natural_height(picture.scene, width); });
    return drawn_sheet(format, options.format, picture.scene.site.name,
                       [&](Canvas& canvas) { draw(canvas, sheet, format.size, morning); });
}

}  // namespace sunfleck::output
