#include "output/move_arrow.h"

#include <string>

namespace sunfleck::output {

namespace {

constexpr double line_width = 2.4;
constexpr double casing = 1.8;  // of page colour on both sides

SheetPoint unit_to(SheetPoint from, SheetPoint to) {
    const double size = distance(from, to);
    return size > 0.0 ? (1.0 / size) * (to - from) : SheetPoint{0.0, -1.0};
}

/// A quadratic curve as a cubic.
Path curve(SheetPoint from, SheetPoint control, SheetPoint to) {
    return Path().move_to(from).curve_to(from + (2.0 / 3.0) * (control - from),
                                         to + (2.0 / 3.0) * (control - to), to);
}

void draw_line(Canvas& canvas, const Path& path, bool is_double, const Palette& palette) {
    const double width = is_double ? 2.2 * line_width : line_width;
    canvas.stroke(path, {.colour = palette.page, .width = width + 2.0 * casing});
    canvas.stroke(path, {.colour = palette.moss, .width = width});
    if (is_double) canvas.stroke(path, {.colour = palette.page, .width = 0.8 * line_width});
}

}  // namespace

SheetPoint arrow_control(const MoveArrow& arrow) {
    const double bulge = arrow.is_swap ? 0.30 : 0.16;
    const SheetPoint way = arrow.to - arrow.from;
    // The sheet's y runs down: right of the way is (-y, x). The curve's middle lies half as far
    // out as its control.
    const SheetPoint right{-way.y, way.x};
    return 0.5 * (arrow.from + arrow.to) + 2.0 * bulge * right;
}

void draw_move_arrow(Canvas& canvas, const MoveArrow& arrow, const Palette& palette) {
    constexpr double head_length = 9.0;
    constexpr double head_half_width = 4.5;
    const SheetPoint control = arrow_control(arrow);
    const SheetPoint ahead = unit_to(control, arrow.to);
    const SheetPoint neck = arrow.to - (0.8 * head_length) * ahead;
    draw_line(canvas, curve(arrow.from, control, neck), arrow.needs_two, palette);
    const SheetPoint foot = arrow.to - head_length * ahead;
    const SheetPoint side = head_half_width * SheetPoint{-ahead.y, ahead.x};
    const std::vector<SheetPoint> head{arrow.to, foot + side, foot - side};
    canvas.stroke(polygon(head), {.colour = palette.page, .width = casing});
    canvas.fill(polygon(head), palette.moss);
}

void draw_bead(Canvas& canvas, SheetPoint centre, int number, const Palette& palette) {
    constexpr double radius = 10.0;
    canvas.fill(circle(centre, radius), palette.page);
    canvas.stroke(circle(centre, radius), {.colour = palette.moss, .width = 2.0});
    canvas.text({centre.x, centre.y + 4.2}, std::to_string(number),
                {.size = number < 100 ? 12.0 : 10.0,
                 .is_bold = true,
                 .colour = palette.ink,
                 .anchor = TextAnchor::middle});
}

}  // namespace sunfleck::output
