#include "sunfleck/output/bench_ribbon.h"

#include "output/hatch.h"
#include "sunfleck/base/require.h"

#include <algorithm>

namespace sunfleck::output {

using exposure::SunState;

namespace {

constexpr double cell_width = 14.0;
constexpr double hour_height = 5.0;
constexpr double figures_width = 20.0;   // left of the cells
constexpr double figures_height = 15.0;  // under them
constexpr double figure_size = 11.0;

/// Where things stand in one ribbon.
class RibbonFrame {
  public:
    RibbonFrame(SheetPoint at, const BenchRibbon& ribbon)
        : from_(ribbon.hours.front().from),
          to_(ribbon.hours.back().to),
          cells_(box_at({at.x + figures_width, at.y},
                        cell_width * static_cast<double>(ribbon.columns.size()),
                        hour_height * to_.seconds_after(from_) / 3600.0)) {}

    [[nodiscard]] const SheetBox& cells() const { return cells_; }
    [[nodiscard]] double y(UtcSeconds instant) const {
        const UtcSeconds held = std::clamp(instant, from_, to_);
        return cells_.low.y + hour_height * held.seconds_after(from_) / 3600.0;
    }
    [[nodiscard]] SheetBox cell(std::size_t column, UtcSeconds from, UtcSeconds to) const {
        const double x = cells_.low.x + cell_width * static_cast<double>(column);
        return {{x, y(from)}, {x + cell_width, y(to)}};
    }

  private:
    UtcSeconds from_;
    UtcSeconds to_;
    SheetBox cells_;
};

Path cells_of(const BenchRibbon& ribbon, const RibbonFrame& frame, SunState state) {
    Path path;
    for (std::size_t i = 0; i < ribbon.columns.size(); ++i) {
        for (const auto& span : ribbon.columns[i].spans) {
            if (span.state == state) path.add(rectangle(frame.cell(i, span.from, span.to)));
        }
    }
    return path;
}

/// Boxes where full sun comes in the hot hours.
Path boxes_of(const BenchRibbon& ribbon, const RibbonFrame& frame) {
    constexpr double least_height = 2.5;
    Path path;
    for (std::size_t i = 0; i < ribbon.columns.size(); ++i) {
        for (const auto& span : ribbon.columns[i].spans) {
            const UtcSeconds from = std::max(span.from, ribbon.hot_from);
            const UtcSeconds to = std::min(span.to, ribbon.hot_to);
            if (span.state != SunState::full || to <= from) continue;
            const SheetBox box = frame.cell(i, from, to).grown(-2.2);
            if (box.height() >= least_height) path.add(rectangle(box));
        }
    }
    return path;
}

void draw_figures(Canvas& canvas, const BenchRibbon& ribbon, const RibbonFrame& frame,
                  const Palette& palette) {
    TextStyle figure{.size = figure_size, .colour = palette.soft_ink, .anchor = TextAnchor::end};
    figure.halo = palette.page;
    for (const auto& hour : ribbon.hours) {
        if (hour.hour % 3 != 0) continue;
        canvas.text({frame.cells().low.x - 4.0, frame.y(hour.from) + 4.0},
                    std::to_string(hour.hour), figure);
    }
    figure.anchor = TextAnchor::middle;
    const std::size_t last = ribbon.columns.size() - 1;
    for (std::size_t i = 0; i <= last; ++i) {
        const int number = ribbon.columns[i].number;
        const bool is_clear = number % 5 == 0 && i + 2 < last && i > 1;
        if (i != 0 && i != last && !is_clear) continue;
        const double x = frame.cells().low.x + cell_width * (static_cast<double>(i) + 0.5);
        canvas.text({x, frame.cells().high.y + 12.0}, std::to_string(number), figure);
    }
}

}  // namespace

SheetSize ribbon_size(const BenchRibbon& ribbon) {
    SUNFLECK_REQUIRE(!ribbon.hours.empty() && !ribbon.columns.empty(), "a ribbon without cells");
    const RibbonFrame frame({}, ribbon);
    return {.width = figures_width + frame.cells().width() + 2.0,
            .height = frame.cells().height() + figures_height};
}

void draw_bench_ribbon(Canvas& canvas, SheetPoint at, const BenchRibbon& ribbon,
                       const Palette& palette) {
    const RibbonFrame frame(at, ribbon);
    const SheetBox& cells = frame.cells();
    canvas.fill(rectangle(cells), palette.page);
    canvas.fill(cells_of(ribbon, frame, SunState::shade), palette.shade);
    const Path filtered = cells_of(ribbon, frame, SunState::filtered);
    canvas.fill(filtered, palette.filtered);
    if (!filtered.is_empty()) hatch(canvas, filtered, cells, {.colour = palette.sun_edge});
    const Path full = cells_of(ribbon, frame, SunState::full);
    canvas.fill(full, palette.sun);
    canvas.stroke(full, {.colour = palette.sun_edge, .width = 0.8});
    Path between;
    for (std::size_t i = 1; i < ribbon.columns.size(); ++i) {
        const double x = cells.low.x + cell_width * static_cast<double>(i);
        between.add(line({x, cells.low.y}, {x, cells.high.y}));
    }
    canvas.stroke(between, {.colour = palette.page, .width = 1.0});
    canvas.stroke(boxes_of(ribbon, frame), {.colour = palette.clay, .width = 1.4});
    for (const UtcSeconds edge : {ribbon.hot_from, ribbon.hot_to}) {
        canvas.stroke(line({cells.low.x - 2.0, frame.y(edge)}, {cells.high.x + 2.0, frame.y(edge)}),
                      {.colour = palette.clay, .width = 1.2, .dashes = {4.0, 3.0}});
    }
    canvas.stroke(rectangle(cells), {.colour = palette.shade_edge, .width = 1.0});
    draw_figures(canvas, ribbon, frame, palette);
}

}  // namespace sunfleck::output
