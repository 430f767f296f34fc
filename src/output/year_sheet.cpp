#include "sunfleck/output/year_sheet.h"

#include "output/hatch.h"
#include "sunfleck/base/plain_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

namespace sunfleck::output {

namespace {

constexpr double figures_width = 34.0;
constexpr double figures_height = 24.0;
constexpr double right_width = 40.0;  // for the hours of the clay lines
constexpr double net_strip = 6.0;
constexpr double flag_height = 24.0;
constexpr double strip_dates_height = 20.0;

/// Where days and hours stand on the sheet.
class YearFrame {
  public:
    YearFrame(const SheetBox& plot, std::span<const YearColumn> columns)
        : columns_(columns), hours_(shown_hours(columns)), plot_(plot) {
        first_ = columns.front().date;
        day_count_ =
            days_between(first_, columns.back().date) + static_cast<double>(columns.back().days);
    }

    [[nodiscard]] const SheetBox& plot() const { return plot_; }
    [[nodiscard]] const ClockRun& hours() const { return hours_; }
    [[nodiscard]] YearPoint point_at(SheetPoint at) const {
        const double across = std::clamp((at.x - plot_.low.x) / plot_.width(), 0.0, 1.0);
        const double down = std::clamp((at.y - plot_.low.y) / plot_.height(), 0.0, 1.0);
        const double day = std::min(std::floor(across * day_count_), day_count_ - 1.0);
        return {.date = add_days(first_, static_cast<int>(day)),
                .hour = hours_.from_h + down * (hours_.to_h - hours_.from_h)};
    }
    [[nodiscard]] double x(double day) const {
        return plot_.low.x + plot_.width() * day / day_count_;
    }
    [[nodiscard]] double x_of(Date date) const { return x(days_between(first_, date)); }
    [[nodiscard]] double y(double hour) const {
        const double held = std::clamp(hour, hours_.from_h, hours_.to_h);
        return plot_.low.y +
               plot_.height() * (held - hours_.from_h) / (hours_.to_h - hours_.from_h);
    }
    [[nodiscard]] double left(std::size_t column) const { return x_of(columns_[column].date); }
    [[nodiscard]] double right(std::size_t column) const {
        return x(days_between(first_, columns_[column].date) + columns_[column].days);
    }
    [[nodiscard]] double middle(std::size_t column) const {
        return 0.5 * (left(column) + right(column));
    }
    [[nodiscard]] SheetBox cell(std::size_t column, const ClockRun& run) const {
        return {{left(column), y(run.from_h)}, {right(column), y(run.to_h)}};
    }

  private:
    std::span<const YearColumn> columns_;
    ClockRun hours_;
    SheetBox plot_;
    Date first_;
    double day_count_ = 1.0;
};

using Runs = std::vector<ClockRun> YearColumn::*;

Path cells(const YearFrame& frame, std::span<const YearColumn> columns, Runs runs) {
    Path path;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        for (const ClockRun& run : columns[i].*runs) path.add(rectangle(frame.cell(i, run)));
    }
    return path;
}

/// Where one of two neighbouring columns has a run and the other none.
std::vector<ClockRun> differences(const std::vector<ClockRun>& a, const std::vector<ClockRun>& b) {
    std::vector<double> ends;
    for (const auto* runs : {&a, &b}) {
        for (const ClockRun& run : *runs) {
            ends.push_back(run.from_h);
            ends.push_back(run.to_h);
        }
    }
    std::sort(ends.begin(), ends.end());
    const auto holds = [](const std::vector<ClockRun>& runs, double hour) {
        return std::any_of(runs.begin(), runs.end(), [hour](const ClockRun& run) {
            return run.from_h <= hour && hour < run.to_h;
        });
    };
    std::vector<ClockRun> found;
    for (std::size_t i = 1; i < ends.size(); ++i) {
        const double middle = 0.5 * (ends[i - 1] + ends[i]);
        if (ends[i - 1] < ends[i] && holds(a, middle) != holds(b, middle)) {
            found.push_back({ends[i - 1], ends[i]});
        }
    }
    return found;
}

/// The outline of the area that the runs of all columns make together.
Path outline(const YearFrame& frame, std::span<const YearColumn> columns, Runs runs) {
    Path path;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        for (const ClockRun& run : columns[i].*runs) {
            for (const double hour : {run.from_h, run.to_h}) {
                path.add(line({frame.left(i), frame.y(hour)}, {frame.right(i), frame.y(hour)}));
            }
        }
        if (i == 0) continue;
        for (const ClockRun& step : differences(columns[i - 1].*runs, columns[i].*runs)) {
            path.add(
                line({frame.left(i), frame.y(step.from_h)}, {frame.left(i), frame.y(step.to_h)}));
        }
    }
    return path;
}

/// A line through the middles of the columns, stepping where the clock is changed.
Path clock_line(const YearFrame& frame, std::span<const YearColumn> columns,
                const std::function<double(const YearColumn&)>& hour) {
    Path path;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const SheetPoint point{frame.middle(i), frame.y(hour(columns[i]))};
        if (i == 0) {
            path.move_to({frame.left(i), point.y});
        } else if (columns[i].utc_offset_s != columns[i - 1].utc_offset_s) {
            path.line_to({frame.left(i), frame.y(hour(columns[i - 1]))});
            path.line_to({frame.left(i), point.y});
        }
        path.line_to(point);
    }
    return path.line_to({frame.right(columns.size() - 1), frame.y(hour(columns.back()))});
}

void draw_light(Canvas& canvas, const YearFrame& frame, std::span<const YearColumn> columns,
                const Palette& palette) {
    const SheetBox& plot = frame.plot();
    canvas.fill(rectangle(plot), palette.night);
    dot(canvas, rectangle(plot), plot, 6.0, 0.6, palette.night_dot);
    canvas.fill(cells(frame, columns, &YearColumn::up), palette.shade);
    const Path filtered = cells(frame, columns, &YearColumn::filtered);
    if (!filtered.is_empty()) {
        canvas.fill(filtered, palette.filtered);
        hatch(canvas, filtered, plot, {.colour = palette.sun_edge});
    }
    const Path full = cells(frame, columns, &YearColumn::full);
    if (!full.is_empty()) {
        // A hair wider than the cells, so that no seam shows between them.
        canvas.fill(full, palette.sun);
        canvas.stroke(full, {.colour = palette.sun, .width = 0.5});
        canvas.stroke(outline(frame, columns, &YearColumn::full),
                      {.colour = palette.sun_edge, .width = 0.7});
    }
    canvas.stroke(outline(frame, columns, &YearColumn::up), {.colour = palette.ink, .width = 1.3});
}

void draw_nets(Canvas& canvas, const YearFrame& frame, std::span<const YearColumn> columns,
               const Palette& palette) {
    const double foot = frame.plot().high.y;
    Path strip;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (!columns[i].has_net) continue;
        strip.add(rectangle({{frame.left(i), foot - net_strip}, {frame.right(i), foot}}));
    }
    if (strip.is_empty()) return;
    canvas.fill(strip, palette.page);
    hatch(canvas, strip, frame.plot(), {.colour = palette.ink});
}

void draw_lines(Canvas& canvas, const YearFrame& frame, std::span<const YearColumn> columns,
                const Palette& palette) {
    const int year = year_of(columns.front().date);
    for (unsigned month = 2; month <= 12; ++month) {
        const double x = frame.x_of(make_date(year, month, 1));
        canvas.stroke(line({x, frame.plot().low.y}, {x, frame.plot().high.y}),
                      {.colour = palette.ink.at_opacity(0.22), .width = 1.0});
    }
    canvas.stroke(clock_line(frame, columns, [](const YearColumn& c) { return c.noon_h; }),
                  {.colour = palette.ink, .width = 1.2, .dashes = {1.2, 3.0}});
    for (const auto hour : {&YearColumn::hot_from_h, &YearColumn::hot_to_h}) {
        canvas.stroke(clock_line(frame, columns, [hour](const YearColumn& c) { return c.*hour; }),
                      {.colour = palette.clay, .width = 1.4, .dashes = {5.0, 3.5}});
    }
}

void draw_figures(Canvas& canvas, const YearFrame& frame, std::span<const YearColumn> columns,
                  const Palette& palette) {
    const SheetBox& plot = frame.plot();
    TextStyle figure{.size = 12.0, .colour = palette.soft_ink, .anchor = TextAnchor::end};
    for (int hour = 0; hour <= 24; hour += 3) {
        if (hour < frame.hours().from_h || hour > frame.hours().to_h) continue;
        const double y = frame.y(hour);
        canvas.stroke(line({plot.low.x - 4.0, y}, {plot.low.x, y}),
                      {.colour = palette.ink, .width = 1.0});
        canvas.text({plot.low.x - 8.0, y + 4.0}, (hour < 10 ? "0" : "") + std::to_string(hour),
                    figure);
    }
    const int year = year_of(columns.front().date);
    figure.anchor = TextAnchor::start;
    for (const unsigned month : {1U, 4U, 7U, 10U}) {
        const Date first = make_date(year, month, 1);
        const double x = frame.x_of(first);
        canvas.stroke(line({x, plot.high.y}, {x, plot.high.y + 4.0}),
                      {.colour = palette.ink, .width = 1.0});
        canvas.text({x, plot.high.y + 18.0}, short_date_words(first), figure);
    }
    figure.colour = palette.clay;
    figure.is_bold = true;
    for (const auto hour : {&YearColumn::hot_from_h, &YearColumn::hot_to_h}) {
        const double at = columns.back().*hour;
        canvas.text({plot.high.x + 5.0, frame.y(at) + 4.0}, rounded_clock_words(3600.0 * at),
                    figure);
    }
}

/// Room for the figures left and below and for the hours of the clay lines on the right.
SheetBox sheet_plot(const SheetBox& box) {
    return {{box.low.x + figures_width, box.low.y},
            {box.high.x - right_width, box.high.y - figures_height}};
}

/// Room for the flag over the strip and the dates under it.
SheetBox strip_plot(const SheetBox& box) {
    return {{box.low.x, box.low.y + flag_height}, {box.high.x, box.high.y - strip_dates_height}};
}

/// A pennant with the date on a line down to the hour's dot; it flies to the left where it would
/// leave the strip.
void draw_flag(Canvas& canvas, const YearFrame& frame, const YearPoint& point,
               const Palette& palette) {
    const double x = frame.x_of(point.date);
    const double top = frame.plot().low.y - flag_height + 2.0;
    canvas.stroke(line({x, top}, {x, frame.plot().high.y}),
                  {.colour = palette.berry, .width = 1.8});
    const std::string words = short_date_words(point.date);
    const double width = canvas.text_width(words, 12.0, true) + 18.0;
    const double side = x + width + 8.0 > frame.plot().high.x ? -1.0 : 1.0;
    const std::vector<SheetPoint> pennant{{x, top},
                                          {x + side * (width + 6.0), top},
                                          {x + side * width, top + 9.5},
                                          {x + side * (width + 6.0), top + 19.0},
                                          {x, top + 19.0}};
    canvas.fill(polygon(pennant), palette.page);
    canvas.stroke(polygon(pennant), {.colour = palette.berry, .width = 1.6});
    canvas.text(
        {x + side * 0.5 * width, top + 14.0}, words,
        {.size = 12.0, .is_bold = true, .colour = palette.ink, .anchor = TextAnchor::middle});
    const SheetPoint dot_at{x, frame.y(point.hour)};
    canvas.fill(circle(dot_at, 5.0), palette.page);
    canvas.stroke(circle(dot_at, 5.0), {.colour = palette.berry, .width = 2.0});
}

void draw_dates(Canvas& canvas, const YearFrame& frame, std::span<const YearColumn> columns,
                double size, Colour colour) {
    const SheetBox& plot = frame.plot();
    const int year = year_of(columns.front().date);
    for (const unsigned month : {1U, 4U, 7U, 10U}) {
        const Date first = make_date(year, month, 1);
        const double x = frame.x_of(first);
        canvas.stroke(line({x, plot.high.y}, {x, plot.high.y + 4.0}),
                      {.colour = colour, .width = 1.0});
        canvas.text({x, plot.high.y + 15.0}, short_date_words(first),
                    {.size = size, .colour = colour, .anchor = TextAnchor::start});
    }
}

}  // namespace

void draw_year_strip(Canvas& canvas, const SheetBox& box, std::span<const YearColumn> columns,
                     const YearPoint& point, const Palette& palette) {
    const YearFrame frame(strip_plot(box), columns);
    {
        const ClipScope clip(canvas, rounded_rectangle(frame.plot(), 3.0));
        draw_light(canvas, frame, columns, palette);
        draw_nets(canvas, frame, columns, palette);
        for (const auto hour : {&YearColumn::hot_from_h, &YearColumn::hot_to_h}) {
            canvas.stroke(
                clock_line(frame, columns, [hour](const YearColumn& c) { return c.*hour; }),
                {.colour = palette.clay, .width = 1.2, .dashes = {4.0, 3.0}});
        }
    }
    canvas.stroke(rounded_rectangle(frame.plot(), 3.0), {.colour = palette.edge, .width = 1.2});
    draw_dates(canvas, frame, columns, 11.0, palette.ink);
    draw_flag(canvas, frame, point, palette);
}

YearPoint year_point_at(const SheetBox& box, std::span<const YearColumn> columns, SheetPoint at) {
    return YearFrame(strip_plot(box), columns).point_at(at);
}

void draw_year_sheet(Canvas& canvas, const SheetBox& box, std::span<const YearColumn> columns,
                     const Palette& palette) {
    const YearFrame frame(sheet_plot(box), columns);
    {
        const ClipScope clip(canvas, rectangle(frame.plot()));
        draw_light(canvas, frame, columns, palette);
        draw_nets(canvas, frame, columns, palette);
        draw_lines(canvas, frame, columns, palette);
    }
    canvas.stroke(rectangle(frame.plot()), {.colour = palette.ink, .width = 1.2});
    draw_figures(canvas, frame, columns, palette);
}

}  // namespace sunfleck::output
