#include "sunfleck/output/plan_marks.h"

#include "output/hatch.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/pot_marks.h"

#include <cmath>
#include <numbers>
#include <vector>

namespace sunfleck::output {

using placement::PotState;

namespace {

constexpr double swatch_width = 24.0;
constexpr double swatch_height = 13.0;
constexpr double legend_text = 13.0;
constexpr double legend_line = 24.0;
constexpr double legend_gap = 22.0;

double entry_width(const Canvas& canvas, const LegendEntry& entry) {
    return swatch_width + 8.0 + canvas.text_width(entry.words, legend_text, false);
}

/// Where each entry begins, line by line.
std::vector<SheetPoint> entry_places(const Canvas& canvas, std::span<const LegendEntry> entries,
                                     double width) {
    std::vector<SheetPoint> places;
    SheetPoint at;
    for (const LegendEntry& entry : entries) {
        const double room = entry_width(canvas, entry);
        if (at.x > 0.0 && at.x + room > width) at = {0.0, at.y + legend_line};
        places.push_back(at);
        at.x += room + legend_gap;
    }
    return places;
}

void draw_bars(Canvas& canvas, const SheetBox& box, const Palette& palette) {
    canvas.fill(rectangle(box), palette.filtered);
    Path bars;
    for (double x = box.low.x + 1.0; x + 2.0 <= box.high.x; x += 3.4) {
        bars.add(rectangle(box_at({x, box.low.y}, 1.9, box.height())));
    }
    canvas.fill(bars, palette.sun_edge);
}

void draw_cast_shadow(Canvas& canvas, const SheetBox& box, bool is_woven, const Palette& palette) {
    const Path area = rectangle(box);
    canvas.fill(area, palette.grass);
    const GroupScope group(canvas, palette.shadow_opacity);
    canvas.fill(area, palette.shadow.at_opacity(is_woven ? 0.3 : 1.0));
    if (is_woven) {
        hatch(canvas, area, box, {.pitch = 5.0, .line_width = 1.8, .colour = palette.shadow});
    }
}

void draw_swatch(Canvas& canvas, const SheetBox& box, Swatch swatch, const Palette& palette) {
    const Path area = rectangle(box);
    const double y = box.centre().y;
    const Path middle = line({box.low.x, y}, {box.high.x, y});
    const double third = box.height() / 3.0;
    const auto edged = [&](const Path& path, Colour fill, Colour edge) {
        canvas.fill(path, fill);
        canvas.stroke(path, {.colour = edge, .width = 1.0});
    };
    switch (swatch) {
        case Swatch::full:
            return edged(area, palette.sun, palette.sun_edge);
        case Swatch::filtered:
            return draw_bars(canvas, box, palette);
        case Swatch::filtered_area:
            canvas.fill(area, palette.filtered);
            return hatch(canvas, area, box, {.colour = palette.sun_edge});
        case Swatch::shade:
            return edged(
                rectangle({{box.low.x, box.low.y + third}, {box.high.x, box.high.y - third}}),
                palette.shade, palette.shade_edge);
        case Swatch::shade_area:
            return edged(area, palette.shade, palette.shade_edge);
        case Swatch::night:
            canvas.fill(area, palette.night);
            return dot(canvas, area, box, 6.0, 0.6, palette.night_dot);
        case Swatch::shadow:
            return draw_cast_shadow(canvas, box, false, palette);
        case Swatch::woven_shadow:
            return draw_cast_shadow(canvas, box, true, palette);
        case Swatch::hot_hours:
            return canvas.stroke(middle, {.colour = palette.clay, .width = 1.6});
        case Swatch::hot_dashes:
            return canvas.stroke(middle,
                                 {.colour = palette.clay, .width = 1.4, .dashes = {5.0, 3.5}});
        case Swatch::hot_box:
            edged(area, palette.sun, palette.sun_edge);
            return canvas.stroke(rectangle(box.grown(-2.0)),
                                 {.colour = palette.clay, .width = 1.8});
        case Swatch::noon_dots:
            return canvas.stroke(middle,
                                 {.colour = palette.ink, .width = 1.2, .dashes = {1.2, 3.0}});
        case Swatch::content:
            return draw_pot_state(canvas, box.centre(), 6.0, PotState::content);
        case Swatch::scorches:
            return draw_pot_state(canvas, box.centre(), 6.0, PotState::scorches);
        case Swatch::gets_hot:
            return draw_pot_state(canvas, box.centre(), 6.0, PotState::gets_hot);
        case Swatch::too_dark:
            return draw_pot_state(canvas, box.centre(), 6.0, PotState::too_dark);
        case Swatch::moved:
            return canvas.stroke(circle(box.centre(), 7.5), {.colour = palette.moss, .width = 1.8});
        case Swatch::free_spot:
            return canvas.fill(circle(box.centre(), 2.2), palette.soft_ink.at_opacity(0.6));
        case Swatch::net_strip:
            return hatch(canvas, area, box, {.colour = palette.ink});
    }
}

}  // namespace

void draw_north_leaf(Canvas& canvas, SheetPoint centre, SheetPoint north, const Palette& palette) {
    constexpr double half_length = 13.0;
    constexpr double half_width = 5.5;
    canvas.fill(circle(centre, 19.0), palette.page.at_opacity(0.86));
    const SheetPoint side{-north.y, north.x};
    const SheetPoint tip = centre + half_length * north;
    const SheetPoint stem = centre - half_length * north;
    const double bulge = half_width * 4.0 / 3.0;
    const Path leaf =
        Path()
            .move_to(stem)
            .curve_to(centre - 5.0 * north + bulge * side, centre + 5.0 * north + bulge * side, tip)
            .curve_to(centre + 5.0 * north - bulge * side, centre - 5.0 * north - bulge * side,
                      stem)
            .close();
    canvas.fill(leaf, palette.moss);
    canvas.stroke(line(stem, centre + 0.7 * half_length * north),
                  {.colour = palette.page, .width = 1.1});
    const SheetPoint letter = centre + 26.0 * north;
    TextStyle style{.size = 13.0, .is_bold = true, .colour = palette.ink};
    style.anchor = TextAnchor::middle;
    style.halo = palette.page;
    canvas.text({letter.x, letter.y + 4.5}, "N", style);
}

double ranging_pole_m(double pixels_per_m) {
    constexpr double longest = 200.0;
    double best = 1.0;
    for (double decade = 1.0; decade < 1e4; decade *= 10.0) {
        for (const double step : {1.0, 2.0, 5.0}) {
            if (decade * step * pixels_per_m <= longest) best = decade * step;
        }
    }
    return best;
}

void draw_ranging_pole(Canvas& canvas, SheetPoint left, double pixels_per_m,
                       const Palette& palette) {
    constexpr double thickness = 6.0;
    constexpr int stretches = 4;
    const double length_m = ranging_pole_m(pixels_per_m);
    const double stretch = length_m * pixels_per_m / stretches;
    for (int i = 0; i < stretches; ++i) {
        const SheetBox box = box_at({left.x + stretch * i, left.y - thickness}, stretch, thickness);
        canvas.fill(rectangle(box), i % 2 == 0 ? palette.ink : palette.page);
        canvas.stroke(rectangle(box), {.colour = palette.ink, .width = 1.0});
    }
    TextStyle figure{.size = 12.0, .colour = palette.ink, .anchor = TextAnchor::middle};
    figure.halo = palette.page.at_opacity(0.8);
    const double y = left.y - thickness - 5.0;
    const bool halves = length_m > 1.5;
    canvas.text({left.x, y}, "0", figure);
    if (halves) {
        canvas.text({left.x + 2.0 * stretch, y},
                    fixed_words(0.5 * length_m, std::fmod(length_m, 2.0) > 0.5 ? 1 : 0), figure);
    }
    canvas.text({left.x + 4.0 * stretch, y}, fixed_words(length_m, 0) + " m", figure);
}

double legend_height(const Canvas& canvas, std::span<const LegendEntry> entries, double width) {
    if (entries.empty()) return 0.0;
    return entry_places(canvas, entries, width).back().y + legend_line;
}

void draw_legend(Canvas& canvas, SheetPoint at, double width, std::span<const LegendEntry> entries,
                 const Palette& palette) {
    const std::vector<SheetPoint> places = entry_places(canvas, entries, width);
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const SheetPoint start = at + places[i];
        const SheetBox box = box_at({start.x, start.y + 0.5 * (legend_line - swatch_height)},
                                    swatch_width, swatch_height);
        draw_swatch(canvas, box, entries[i].swatch, palette);
        canvas.text({box.high.x + 8.0, box.centre().y + 4.5}, entries[i].words,
                    {.size = legend_text, .colour = palette.ink});
    }
}

}  // namespace sunfleck::output
