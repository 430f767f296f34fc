#include "sunfleck/output/day_arch.h"

#include "output/hatch.h"
#include "sunfleck/exposure/sun_arc.h"
#include "sunfleck/sun/solar_position.h"
#include "sunfleck/sun/sun_day.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::output {

namespace {

constexpr double figures_height = 18.0;
constexpr double step_s = 600.0;
constexpr double obliquity_deg = 23.44;

/// Turns instants and altitudes to points. The height is the same on every date: the year's
/// highest noon and five degrees more.
class ArchFrame {
  public:
    ArchFrame(const SheetBox& box, const DayArch& arch, const sun::TimeZone& zone)
        : place_(arch.place), zone_(zone), ground_(box.high.y - figures_height) {
        const sun::SunDay day = sun::sun_day(arch.date, place_, zone_);
        // At high latitudes the sun is up beyond the usual hours.
        const bool is_long =
            clock_h(day.up_from, arch.date) < 3.5 || clock_h(day.up_to, arch.date) > 22.5;
        from_h_ = is_long ? 0.0 : 3.0;
        to_h_ = is_long ? 24.0 : 23.0;
        left_ = box.low.x;
        per_h_ = box.width() / (to_h_ - from_h_);
        const double off_tropic_deg =
            std::max(std::abs(place_.latitude.in_degrees()) - obliquity_deg, 0.0);
        per_deg_ = (ground_ - box.low.y) / (90.0 - off_tropic_deg + 5.0);
    }

    [[nodiscard]] double ground() const { return ground_; }
    [[nodiscard]] double from_h() const { return from_h_; }
    [[nodiscard]] double to_h() const { return to_h_; }
    [[nodiscard]] double x_of_hour(double hour) const {
        return left_ + per_h_ * (std::clamp(hour, from_h_, to_h_) - from_h_);
    }
    [[nodiscard]] double hour_of_x(double x) const {
        return std::clamp(from_h_ + (x - left_) / per_h_, from_h_, to_h_);
    }
    /// The sun at an instant of a date, by the clock of that date.
    [[nodiscard]] SheetPoint sun_at(UtcSeconds instant, Date date) const {
        const double altitude_deg = sun::solar_position(instant, place_).altitude_true.in_degrees();
        return {x_of_hour(clock_h(instant, date)),
                ground_ - per_deg_ * std::max(altitude_deg, 0.0)};
    }
    /// The sun's way between two instants of a date.
    [[nodiscard]] std::vector<SheetPoint> way(UtcSeconds from, UtcSeconds to, Date date) const {
        std::vector<SheetPoint> points;
        for (double t = 0.0; t < to.seconds_after(from); t += step_s) {
            points.push_back(sun_at(from.plus_seconds(t), date));
        }
        points.push_back(sun_at(to, date));
        return points;
    }

  private:
    /// Hours of that date; beyond midnight more than 24 or less than 0.
    [[nodiscard]] double clock_h(UtcSeconds instant, Date date) const {
        const sun::ClockTime clock = zone_.clock(instant);
        return 24.0 * days_between(date, clock.date) + clock.seconds_of_day / 3600.0;
    }

    const sun::Place& place_;
    const sun::TimeZone& zone_;
    double ground_;
    double from_h_ = 3.0;
    double to_h_ = 23.0;
    double left_ = 0.0;
    double per_h_ = 1.0;
    double per_deg_ = 1.0;
};

/// Closes a way down to the clock's line.
std::vector<SheetPoint> hill_of(std::vector<SheetPoint> way, double ground) {
    way.push_back({way.back().x, ground});
    way.insert(way.begin(), {way.front().x, ground});
    return way;
}

void draw_hill(Canvas& canvas, const ArchFrame& frame, const DayArch& arch, const sun::SunDay& day,
               const Palette& palette) {
    if (!(day.up_from < day.up_to)) return;
    const auto way = frame.way(day.up_from, day.up_to, arch.date);
    canvas.fill(polygon(hill_of(way, frame.ground())), palette.page.at_opacity(0.55));
    const exposure::HotHours hot = exposure::hot_hours(day);
    const UtcSeconds from = std::max(hot.from, day.up_from);
    const UtcSeconds to = std::min(hot.to, day.up_to);
    if (from < to) {
        const auto hill = hill_of(frame.way(from, to, arch.date), frame.ground());
        hatch(canvas, polygon(hill), box_around(hill),
              {.pitch = 5.0, .line_width = 0.9, .colour = palette.clay.at_opacity(0.7)});
    }
    if (arch.spans.empty()) canvas.stroke(polyline(way), {.colour = palette.ink, .width = 2.0});
}

/// The arch's edge as a spot's day: full whole, filtered in bars, shade thin.
void draw_spot_day(Canvas& canvas, const ArchFrame& frame, const DayArch& arch,
                   const Palette& palette) {
    for (const exposure::SunSpan& span : arch.spans) {
        if (!(span.from < span.to)) continue;
        const Path way = polyline(frame.way(span.from, span.to, arch.date));
        switch (span.state) {
            case exposure::SunState::full:
                canvas.stroke(way, {.colour = palette.sun_edge, .width = 8.2});
                canvas.stroke(way, {.colour = palette.sun, .width = 6.2});
                break;
            case exposure::SunState::filtered:
                canvas.stroke(way, {.colour = palette.filtered, .width = 7.0});
                canvas.stroke(way,
                              {.colour = palette.sun_edge, .width = 7.0, .dashes = {2.0, 1.8}});
                break;
            case exposure::SunState::shade:
                canvas.stroke(way, {.colour = palette.shade_edge, .width = 3.4});
                canvas.stroke(way, {.colour = palette.shade, .width = 1.6});
                break;
        }
    }
}

/// Winter's low arch, dotted, to show how low it will be.
void draw_winter(Canvas& canvas, const ArchFrame& frame, const DayArch& arch,
                 const sun::TimeZone& zone, const Palette& palette) {
    const int year = year_of(arch.date);
    const bool is_south = arch.place.latitude.is_south();
    const Date winter = is_south ? make_date(year, 6, 21) : make_date(year, 12, 21);
    const sun::SunDay day = sun::sun_day(winter, arch.place, zone);
    if (!(day.up_from < day.up_to)) return;
    canvas.stroke(polyline(frame.way(day.up_from, day.up_to, winter)),
                  {.colour = palette.soft_ink, .width = 1.2, .dashes = {1.5, 3.5}});
}

void draw_clock(Canvas& canvas, const ArchFrame& frame, const Palette& palette) {
    const double ground = frame.ground();
    canvas.stroke(
        line({frame.x_of_hour(frame.from_h()), ground}, {frame.x_of_hour(frame.to_h()), ground}),
        {.colour = palette.ink, .width = 1.2});
    for (double hour = frame.from_h(); hour <= frame.to_h(); hour += 1.0) {
        const int number = static_cast<int>(hour);
        const double x = frame.x_of_hour(hour);
        canvas.stroke(line({x, ground}, {x, ground - (number % 3 == 0 ? 5.0 : 3.0)}),
                      {.colour = palette.ink, .width = 1.0});
        if (number % 3 != 0 || number < 6 || number > 21) continue;
        canvas.text({x, ground + 14.0}, std::to_string(number),
                    {.size = 11.0, .colour = palette.ink, .anchor = TextAnchor::middle});
    }
}

void draw_plumb_line(Canvas& canvas, const ArchFrame& frame, const DayArch& arch,
                     const sun::SunDay& day, const Palette& palette) {
    const SheetPoint sun = frame.sun_at(*arch.at, arch.date);
    const SheetPoint foot{sun.x, frame.ground()};
    const bool is_up = day.up_from <= *arch.at && *arch.at <= day.up_to;
    if (is_up) {
        canvas.stroke(line(sun, foot), {.colour = palette.page.at_opacity(0.7), .width = 4.0});
        canvas.stroke(line(sun, foot), {.colour = palette.berry, .width = 1.8});
        canvas.fill(circle(sun, 8.5), palette.sun);
        canvas.stroke(circle(sun, 8.5), {.colour = palette.sun_edge, .width = 1.4});
    }
    const std::vector<SheetPoint> bob{{foot.x - 4.5, foot.y - 4.0},
                                      {foot.x + 4.5, foot.y - 4.0},
                                      {foot.x + 4.5, foot.y - 0.5},
                                      {foot.x, foot.y + 8.0},
                                      {foot.x - 4.5, foot.y - 0.5}};
    canvas.fill(polygon(bob), palette.berry);
    canvas.stroke(polygon(bob), {.colour = palette.page, .width = 1.0});
}

}  // namespace

void draw_day_arch(Canvas& canvas, const SheetBox& box, const DayArch& arch,
                   const sun::TimeZone& zone, const Palette& palette) {
    const ArchFrame frame(box, arch, zone);
    const sun::SunDay day = sun::sun_day(arch.date, arch.place, zone);
    draw_hill(canvas, frame, arch, day, palette);
    draw_winter(canvas, frame, arch, zone, palette);
    draw_spot_day(canvas, frame, arch, palette);
    draw_clock(canvas, frame, palette);
    if (arch.at) draw_plumb_line(canvas, frame, arch, day, palette);
}

double arch_hour_at(const SheetBox& box, const DayArch& arch, const sun::TimeZone& zone, double x) {
    return ArchFrame(box, arch, zone).hour_of_x(x);
}

}  // namespace sunfleck::output
