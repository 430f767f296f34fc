#include "window/painted_button.h"
#include "window/painters.h"

#include <array>
#include <cmath>
#include <numbers>

namespace sunfleck::window {
namespace {

using namespace output;

// A stepping stone: ten points on a superellipse, each a little in or out.
Path stone(const SheetBox& box) {
    constexpr std::array<double, 10> uneven{1.02, 0.97, 1.05, 0.98, 1.03,
                                            0.96, 1.04, 0.99, 1.01, 0.95};
    constexpr double power = 2.0 / 3.3;
    const SheetPoint middle = box.centre();
    std::vector<SheetPoint> points;
    for (std::size_t i = 0; i < uneven.size(); ++i) {
        const double angle = 2.0 * std::numbers::pi * (static_cast<double>(i) + 0.5) / 10.0;
        const double c = std::cos(angle);
        const double s = std::sin(angle);
        points.push_back({middle.x + 0.5 * box.width() * uneven[i] *
                                         std::copysign(std::pow(std::abs(c), power), c),
                          middle.y + 0.5 * box.height() * uneven[i] *
                                         std::copysign(std::pow(std::abs(s), power), s)});
    }
    // Through the middles of the sides, bent at the corners.
    Path path;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const SheetPoint& corner = points[i];
        const SheetPoint& next = points[(i + 1) % points.size()];
        const SheetPoint& before = points[(i + points.size() - 1) % points.size()];
        const SheetPoint from = 0.5 * (before + corner);
        const SheetPoint to = 0.5 * (corner + next);
        if (i == 0) path.move_to(from);
        path.curve_to(from + 0.62 * (corner - from), to + 0.62 * (corner - to), to);
    }
    return path.close();
}

}  // namespace

void paint_path(Canvas& canvas, const ViewModel& view, const Palette& palette) {
    const SheetBox& path = view.regions().path;
    canvas.fill(rectangle(path), palette.leaf);
    canvas.stroke(line({path.low.x, path.low.y + 0.7}, {path.high.x, path.low.y + 0.7}),
                  {.colour = palette.ink, .width = 1.4});
    for (const Target& target : path_targets(view)) {
        if (!target.name.starts_with("stone ")) {
            paint_button(canvas, target, palette);
            continue;
        }
        const Path shape = stone(target.box);
        const bool is_here = (target.name == "stone sun") == (view.stone() == Stone::sun);
        canvas.fill(shape, is_here ? palette.sun : palette.page);
        canvas.stroke(shape, {.colour = palette.ink, .width = is_here ? 2.0 : 1.4});
        const SheetPoint middle = target.box.centre();
        canvas.text({middle.x - 22.0, middle.y + 5.0}, target.key,
                    {.size = 11.0, .colour = palette.ink});
        canvas.text({middle.x - 10.0, middle.y + 6.0}, target.words,
                    {.size = 16.0, .is_bold = is_here, .colour = palette.ink});
    }
}

}  // namespace sunfleck::window
