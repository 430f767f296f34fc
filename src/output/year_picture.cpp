#include "output/garden_things.h"
#include "output/sheet.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/base/require.h"
#include "sunfleck/exposure/sun_arc.h"
#include "sunfleck/output/day_ring.h"
#include "sunfleck/output/plan_marks.h"
#include "sunfleck/output/year_sheet.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::output {

namespace {

constexpr double margin = 24.0;
constexpr double head_height = 96.0;
constexpr double rings_height = 110.0;
constexpr double legend_room = 40.0;
constexpr double ring_size = 64.0;

/// "Full sun: most 9 h 40 on 14 May, least none on 3 December."
std::string extremes(const exposure::ReceiverExposure& receiver) {
    const auto less = [](const auto& a, const auto& b) {
        return a.total.full_min < b.total.full_min;
    };
    const auto [least, most] =
        std::minmax_element(receiver.days.begin(), receiver.days.end(), less);
    if (most->total.effective_min <= 0.0) return "No sun here on any day.";
    return "Full sun: most " + duration_words(most->total.full_min) + " on " +
           date_words(most->date) + ", least " + duration_words(least->total.full_min) + " on " +
           date_words(least->date) + ".";
}

/// The day nearest to the 21st of a month.
const exposure::DayExposure& day_of_month(const exposure::ReceiverExposure& receiver,
                                          unsigned month) {
    const Date wanted = make_date(year_of(receiver.days.front().date), month, 21);
    return *std::min_element(
        receiver.days.begin(), receiver.days.end(), [wanted](const auto& a, const auto& b) {
            return std::abs(days_between(a.date, wanted)) < std::abs(days_between(b.date, wanted));
        });
}

void draw_rings(Canvas& canvas, const YearPicture& picture, const sun::TimeZone& zone,
                const SheetBox& box, const Palette& palette) {
    const double step = box.width() / 12.0;
    const double size = std::min(ring_size, step - 2.0 * ring_margin(ring_size) - 6.0);
    for (unsigned month = 1; month <= 12; ++month) {
        const auto& day = day_of_month(picture.receiver, month);
        const auto sun_day = sun::sun_day(day.date, picture.scene.site.place, zone);
        const SheetPoint centre{box.low.x + step * (month - 0.5), box.low.y + 46.0};
        draw_day_ring(canvas, centre, size,
                      day_ring(day, sun_day, picture.scene.site.place.latitude, {}), palette);
        canvas.text({centre.x, centre.y + 0.5 * size + 20.0}, short_date_words(day.date),
                    {.size = 12.0, .colour = palette.soft_ink, .anchor = TextAnchor::middle});
    }
}

std::vector<LegendEntry> legend_of(std::span<const YearColumn> columns) {
    std::vector<LegendEntry> entries{{Swatch::full, "full sun (in a ring: hours)"},
                                     {Swatch::filtered_area, "filtered"},
                                     {Swatch::shade_area, "shade"},
                                     {Swatch::night, "night"},
                                     {Swatch::hot_dashes, "hot hours"},
                                     {Swatch::noon_dots, "solar noon"}};
    const bool has_net = std::any_of(columns.begin(), columns.end(),
                                     [](const YearColumn& column) { return column.has_net; });
    if (has_net) entries.push_back({Swatch::net_strip, "net up"});
    return entries;
}

void draw(Canvas& canvas, const YearPicture& picture, const sun::TimeZone& zone, SheetSize size,
          const Palette& palette) {
    canvas.fill(rectangle(box_at({}, size.width, size.height)), palette.page);
    const double room = size.width - 2.0 * margin;
    canvas.text({margin, 44.0}, canvas.cut_text(picture.spot.name, 26.0, true, room),
                {.size = 26.0, .is_bold = true, .colour = palette.ink});
    const std::string where = picture.scene.site.name + " · " + picture.spot.id + " · " +
                              std::to_string(year_of(picture.receiver.days.front().date)) + " · " +
                              length_words(picture.receiver.receiver.height_m) +
                              " above the bench top";
    canvas.text({margin, 68.0}, canvas.cut_text(where, 14.0, false, room),
                {.size = 14.0, .colour = palette.soft_ink});
    canvas.text({margin, 90.0}, canvas.cut_text(extremes(picture.receiver), 14.0, false, room),
                {.size = 14.0, .colour = palette.ink});

    std::vector<YearColumn> columns =
        year_columns(picture.receiver.days, picture.scene.site.place, zone);
    mark_nets(picture.scene, columns);
    const SheetBox sheet{{margin, head_height + 12.0},
                         {size.width - 8.0, size.height - rings_height - legend_room}};
    draw_year_sheet(canvas, sheet, columns, palette);
    draw_rings(canvas, picture, zone,
               {{margin, sheet.high.y + 8.0}, {size.width - margin, size.height - legend_room}},
               palette);
    draw_legend(canvas, {margin, size.height - legend_room + 8.0}, room, legend_of(columns),
                palette);
}

}  // namespace

Result<std::string> draw_year(const YearPicture& picture, const PictureOptions& options) {
    SUNFLECK_REQUIRE(!picture.receiver.days.empty(), "a year without days");
    const auto zone = sun::TimeZone::find(picture.scene.site.time_zone);
    if (!zone) return tl::unexpected(zone.error());
    const SheetFormat format = sheet_format(options, [](double) { return 640.0; });
    return drawn_sheet(format, options.format, picture.spot.name,
                       [&](Canvas& canvas) { draw(canvas, picture, *zone, format.size, morning); });
}

}  // namespace sunfleck::output
