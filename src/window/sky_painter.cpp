#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/day_arch.h"
#include "sunfleck/output/words.h"
#include "sunfleck/sun/sun_seen.h"
#include "window/painted_button.h"
#include "window/painters.h"

#include <string>

namespace sunfleck::window {
namespace {

using namespace output;

std::string sun_words(const ViewModel& view) {
    const sun::SunSeen seen = sun::sun_seen(view.instant(), view.scene().site.place);
    if (seen.altitude <= Angle{}) return "The sun is down";
    return "Sun " + degrees_words(seen.altitude) + " high in the " + bearing_words(seen.azimuth);
}

std::string noon_words(const ViewModel& view) {
    const auto day = sun::sun_day(view.moment().date, view.scene().site.place, view.zone());
    return "solar noon " + clock_words_at(day.solar_noon, view.zone());
}

std::string kept_words(const ViewModel& view) {
    if (view.document().path().empty()) return "Not kept yet";
    return view.document().is_kept() ? "Kept" : "Changed since kept";
}

}  // namespace

void paint_sky(Canvas& canvas, const ViewModel& view, const Palette& palette) {
    const SheetBox& sky = view.regions().sky;
    const SkyParts parts = sky_parts(view.regions());
    canvas.fill_down(rectangle(sky), palette.sky_top, palette.sky_low);
    canvas.stroke(line({sky.low.x, sky.high.y - 0.7}, {sky.high.x, sky.high.y - 0.7}),
                  {.colour = palette.ink, .width = 1.4});

    const std::string name = view.scene().site.name.empty() ? "Garden" : view.scene().site.name;
    canvas.text({parts.name.low.x, 32.0}, canvas.cut_text(name, 16.0, true, parts.name.width()),
                {.size = 16.0, .is_bold = true, .colour = palette.ink});
    canvas.text({parts.name.low.x, 52.0},
                canvas.cut_text(kept_words(view), 12.0, false, parts.name.width()),
                {.size = 12.0, .colour = palette.ink});

    DayArch arch{.date = view.moment().date,
                 .place = view.scene().site.place,
                 .at = view.instant(),
                 .spans = {}};
    if (view.chosen_spot() && view.is_day_current()) {
        arch.spans = view.day()->days[*view.chosen_spot()].spans;
    }
    draw_day_arch(canvas, parts.arch, arch, view.zone(), palette);
    if (view.year() != nullptr && !view.year()->columns.empty()) {
        draw_year_strip(canvas, parts.strip, view.year()->columns,
                        {.date = view.moment().date, .hour = view.moment().minute / 60.0}, palette);
    }

    const bool is_compact = view.regions().is_compact;
    const double clock_size = is_compact ? 28.0 : 34.0;
    const double clock_foot = is_compact ? 34.0 : 42.0;
    const std::string clock = clock_words(60.0 * view.moment().minute);
    canvas.text({parts.clock.low.x, clock_foot}, clock,
                {.size = clock_size, .is_bold = true, .colour = palette.ink});
    canvas.text({parts.clock.low.x + canvas.text_width(clock, clock_size, true) + 12.0, clock_foot},
                date_words(view.moment().date), {.size = 16.0, .colour = palette.ink});
    canvas.text({parts.clock.low.x, clock_foot + (is_compact ? 20.0 : 22.0)},
                canvas.cut_text(sun_words(view) + " · " + noon_words(view), 12.5, false,
                                parts.clock.width()),
                {.size = 12.5, .colour = palette.ink});
    for (const Target& target : sky_targets(view)) paint_button(canvas, target, palette);
}

}  // namespace sunfleck::window
