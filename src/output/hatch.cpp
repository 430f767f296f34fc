#include "output/hatch.h"

#include <cmath>
#include <numbers>

namespace sunfleck::output {

void hatch(Canvas& canvas, const Path& path, const SheetBox& box, const Hatch& hatch) {
    // Rising lines are x + y = c, falling ones x - y = c; c steps by pitch * sqrt 2.
    const double step = hatch.pitch * std::numbers::sqrt2;
    const double low = hatch.falls ? box.low.x - box.high.y : box.low.x + box.low.y;
    const double high = hatch.falls ? box.high.x - box.low.y : box.high.x + box.high.y;
    Path lines;
    const auto first = static_cast<long>(std::floor(low / step));
    const auto last = static_cast<long>(std::ceil(high / step));
    for (long i = first; i <= last; ++i) {
        const double c = static_cast<double>(i) * step;
        const double top = box.low.y;
        const double bottom = box.high.y;
        lines.move_to({hatch.falls ? c + top : c - top, top});
        lines.line_to({hatch.falls ? c + bottom : c - bottom, bottom});
    }
    const ClipScope clip(canvas, path);
    canvas.stroke(lines, {.colour = hatch.colour, .width = hatch.line_width});
}

void dot(Canvas& canvas, const Path& path, const SheetBox& box, double pitch, double radius,
         Colour colour) {
    Path dots;
    const auto first_row = static_cast<long>(std::floor(box.low.y / pitch));
    const auto last_row = static_cast<long>(std::ceil(box.high.y / pitch));
    const auto first_column = static_cast<long>(std::floor(box.low.x / pitch)) - 1;
    const auto last_column = static_cast<long>(std::ceil(box.high.x / pitch));
    for (long row = first_row; row <= last_row; ++row) {
        const double shift = row % 2 == 0 ? 0.0 : 0.5 * pitch;
        for (long column = first_column; column <= last_column; ++column) {
            const SheetPoint centre{static_cast<double>(column) * pitch + shift,
                                    static_cast<double>(row) * pitch};
            dots.add(rectangle(SheetBox{centre, centre}.grown(radius)));
        }
    }
    const ClipScope clip(canvas, path);
    canvas.fill(dots, colour);
}

}  // namespace sunfleck::output
