#include "sunfleck/output/pot_marks.h"

#include <algorithm>

namespace sunfleck::output {

using placement::PotState;

namespace {

Colour pot_colour(scene::PotColour colour) {
    switch (colour) {
        case scene::PotColour::pale:
            return rgb(0xB4B3A4);
        case scene::PotColour::medium:
            return rgb(0x8F5B40);
        case scene::PotColour::dark:
            break;
    }
    return rgb(0x46525F);
}

Path mark_path(SheetPoint c, double r, PotState state) {
    switch (state) {
        case PotState::content:
            break;
        case PotState::scorches: {
            const std::vector<SheetPoint> triangle{{c.x, c.y - 1.1 * r},
                                                   {c.x + 1.1 * r, c.y + 0.9 * r},
                                                   {c.x - 1.1 * r, c.y + 0.9 * r}};
            return polygon(triangle);
        }
        case PotState::gets_hot: {
            const double reach = 1.2 * r;
            const std::vector<SheetPoint> diamond{
                {c.x, c.y - reach}, {c.x + reach, c.y}, {c.x, c.y + reach}, {c.x - reach, c.y}};
            return polygon(diamond);
        }
        case PotState::too_dark:
            return rectangle(SheetBox{c, c}.grown(0.9 * r));
    }
    return circle(c, 0.9 * r);
}

}  // namespace

void draw_pot_state(Canvas& canvas, SheetPoint centre, double radius, PotState state,
                    const Palette& palette) {
    const Path mark = mark_path(centre, radius, state);
    // A pale casing keeps the marks apart from the boards in every colour vision.
    canvas.stroke(mark, {.colour = palette.page, .width = 3.0});
    switch (state) {
        case PotState::content:
            canvas.fill(mark, palette.page);
            canvas.stroke(mark, {.colour = palette.ink, .width = 1.6});
            return;
        case PotState::scorches:
            return canvas.fill(mark, palette.clay);
        case PotState::gets_hot:
            canvas.fill(mark, palette.page);
            canvas.stroke(mark, {.colour = palette.clay, .width = 1.8});
            return canvas.fill(circle(centre, 0.3 * radius), palette.clay);
        case PotState::too_dark:
            return canvas.fill(mark, palette.shade_edge);
    }
}

void draw_pot(Canvas& canvas, SheetPoint centre, SheetPoint along, const scene::Pot& pot,
              double pixels_per_m, const Palette& palette) {
    constexpr double least = 5.0;
    const double half_length = 0.5 * std::max(pot.pot_length_m * pixels_per_m, least);
    const double half_width = 0.5 * std::max(pot.pot_width_m * pixels_per_m, least);
    const SheetPoint a = half_length * along;
    const SheetPoint b = half_width * SheetPoint{-along.y, along.x};
    const std::vector<SheetPoint> corners{centre - a - b, centre + a - b, centre + a + b,
                                          centre - a + b};
    canvas.fill(polygon(corners), pot_colour(pot.colour));
    canvas.stroke(polygon(corners), {.colour = palette.ink, .width = 1.0});
    const double crown = std::max(0.5 * pot.crown_width_m * pixels_per_m, 0.4 * least);
    canvas.fill(circle(centre, crown), palette.leaf.at_opacity(0.8));
    canvas.stroke(circle(centre, crown), {.colour = palette.leaf_line, .width = 1.0});
}

double draw_plant_label(Canvas& canvas, SheetPoint at, std::string_view code,
                        const Palette& palette) {
    constexpr double size = 12.0;
    constexpr double half_height = 9.0;
    constexpr double tip = 8.0;
    const std::string text = canvas.cut_text(code, size, true, 76.0);
    const double body = canvas.text_width(text, size, true) + 12.0;
    const std::vector<SheetPoint> outline{{at.x, at.y - half_height},
                                          {at.x + body, at.y - half_height},
                                          {at.x + body + tip, at.y},
                                          {at.x + body, at.y + half_height},
                                          {at.x, at.y + half_height}};
    canvas.fill(polygon(outline), palette.tray);
    canvas.stroke(polygon(outline), {.colour = palette.edge, .width = 1.0});
    canvas.text({at.x + 6.0, at.y + 4.3}, text,
                {.size = size, .is_bold = true, .colour = palette.ink});
    return body + tip;
}

}  // namespace sunfleck::output
