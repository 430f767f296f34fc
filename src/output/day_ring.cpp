#include "sunfleck/output/day_ring.h"

#include "sunfleck/base/plain_words.h"
#include "sunfleck/exposure/sun_arc.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace sunfleck::output {

using exposure::SunState;

namespace {

constexpr Angle hour_angle = Angle::degrees(15.0);
constexpr Angle half_turn = Angle::degrees(180.0);

/// The circle's measures in pixels.
struct Band {
    SheetPoint centre;
    double diameter = 0.0;
    [[nodiscard]] double outer() const { return 0.5 * diameter; }
    [[nodiscard]] double width() const { return band_width(diameter); }
    [[nodiscard]] double inner() const { return outer() - width(); }
    [[nodiscard]] double middle() const { return outer() - 0.5 * width(); }
    [[nodiscard]] double edge_line() const { return diameter <= 28.0 ? 0.7 : 0.9; }
};

double turn_of(const RingStretch& stretch) {
    return std::abs((stretch.to - stretch.from).in_radians());
}

void draw_shade(Canvas& canvas, const Band& band, const DayRing& ring, const Palette& palette) {
    // The thin track runs under the whole day, so that the band never seems to hang in the air.
    if (ring.stretches.empty()) return;
    const double third = band.width() / 3.0;
    const Path track = ring_stretch(band.centre, band.outer() - third, band.inner() + third,
                                    ring.stretches.front().from, ring.stretches.back().to);
    canvas.fill(track, palette.shade);
    canvas.stroke(track, {.colour = palette.shade_edge, .width = band.edge_line()});
}

void draw_full(Canvas& canvas, const Band& band, const RingStretch& stretch,
               const Palette& palette) {
    const Path area =
        ring_stretch(band.centre, band.outer(), band.inner(), stretch.from, stretch.to);
    canvas.fill(area, palette.sun);
    // Slivers have no room for an edge: two would hide the sun between them.
    const bool has_edge = turn_of(stretch) * band.middle() > 2.0 * band.edge_line();
    if (has_edge) canvas.stroke(area, {.colour = palette.sun_edge, .width = band.edge_line()});
}

void draw_filtered(Canvas& canvas, const Band& band, const RingStretch& stretch,
                   const Palette& palette) {
    canvas.fill(ring_stretch(band.centre, band.outer(), band.inner(), stretch.from, stretch.to),
                palette.filtered);
    const double length = turn_of(stretch) * band.middle();
    const long bar_count = std::max(1L, std::lround(length / bar_pitch(band.diameter)));
    const Angle step = (1.0 / static_cast<double>(bar_count)) * (stretch.to - stretch.from);
    Path bars;
    for (long i = 0; i < bar_count; ++i) {
        const Angle middle = stretch.from + (static_cast<double>(i) + 0.5) * step;
        const Angle half = 0.5 * bar_share * step;
        bars.add(
            ring_stretch(band.centre, band.outer(), band.inner(), middle - half, middle + half));
    }
    canvas.fill(bars, palette.sun_edge);
}

void draw_marks(Canvas& canvas, const Band& band, const DayRing& ring, const Palette& palette) {
    canvas.fill(ring_stretch(band.centre, band.outer() + 3.6, band.outer() + 2.2, ring.hot_from,
                             ring.hot_to),
                palette.clay);
    const double length = band.diameter < ring_with_clock ? 3.0 : 6.0;
    const SheetPoint foot{band.centre.x, band.centre.y - band.outer() - 1.0};
    canvas.stroke(line(foot, {foot.x, foot.y - length}), {.colour = palette.ink, .width = 1.2});
}

void draw_clock(Canvas& canvas, const Band& band, const DayRing& ring, const Palette& palette) {
    constexpr double first_day_hour = 3;
    const TextStyle figure{.size = 11.0, .colour = palette.soft_ink, .anchor = TextAnchor::middle};
    for (const RingHour& hour : ring.hours) {
        if (hour.hour < first_day_hour || hour.hour > 21) continue;  // the open foot is night
        const bool is_third = hour.hour % 3 == 0;
        canvas.stroke(
            line(on_circle(band.centre, band.outer() + 1.0, hour.angle),
                 on_circle(band.centre, band.outer() + (is_third ? 6.0 : 3.5), hour.angle)),
            {.colour = palette.ink, .width = 1.0});
        if (!is_third) continue;
        const SheetPoint at = on_circle(band.centre, band.outer() + 14.0, hour.angle);
        canvas.text({at.x, at.y + 4.0}, std::to_string(hour.hour), figure);
    }
    TextStyle side = figure;
    side.is_bold = true;
    const double reach = 0.62 * band.outer();
    const double baseline = band.centre.y + 5.0;
    canvas.text({band.centre.x - reach, baseline}, ring.is_south ? "W" : "E", side);
    canvas.text({band.centre.x + reach, baseline}, ring.is_south ? "E" : "W", side);
}

double figure_size(double diameter) {
    if (diameter < ring_with_marks) return 0.475 * diameter;
    return (diameter < ring_with_clock ? 0.39 : 0.3) * diameter;
}

void draw_figure(Canvas& canvas, const Band& band, const DayRing& ring, const Palette& palette) {
    const double size = figure_size(band.diameter);
    const std::string hours = fixed_words(std::round(ring.full_min / 60.0), 0);
    canvas.text(
        {band.centre.x, band.centre.y + 0.35 * size}, hours,
        {.size = size, .is_bold = true, .colour = palette.ink, .anchor = TextAnchor::middle});
}

}  // namespace

Angle ring_angle(UtcSeconds instant, UtcSeconds solar_noon, Latitude latitude) {
    const double hours = instant.seconds_after(solar_noon) / 3600.0;
    return (latitude.is_south() ? -hours : hours) * hour_angle;
}

DayRing day_ring(const exposure::DayExposure& day, const sun::SunDay& sun_day, Latitude latitude,
                 std::span<const sun::CivilHour> hours) {
    const UtcSeconds noon = sun_day.solar_noon;
    const exposure::HotHours hot = exposure::hot_hours(sun_day);
    DayRing ring{.hot_from = ring_angle(hot.from, noon, latitude),
                 .hot_to = ring_angle(hot.to, noon, latitude),
                 .full_min = day.total.full_min,
                 .filtered_min = day.total.filtered_min,
                 .is_south = latitude.is_south()};
    for (const exposure::SunSpan& span : day.spans) {
        ring.stretches.push_back({span.state, ring_angle(span.from, noon, latitude),
                                  ring_angle(span.to, noon, latitude)});
    }
    for (const sun::CivilHour& hour : hours) {
        const Angle angle = ring_angle(hour.from, noon, latitude);
        if (angle >= -half_turn && angle <= half_turn) ring.hours.push_back({hour.hour, angle});
    }
    return ring;
}

double band_width(double diameter) {
    const double share = diameter <= 18.0   ? 0.17
                         : diameter <= 28.0 ? 0.15
                         : diameter <= 60.0 ? 0.12
                                            : 0.085;
    return share * diameter;
}

double bar_pitch(double diameter) {
    if (diameter <= 28.0) return 2.6;
    return diameter <= 60.0 ? 3.4 : 5.0;
}

double ring_margin(double diameter) {
    if (diameter < ring_with_marks) return 1.0;
    return diameter < ring_with_clock ? 5.0 : 20.0;
}

void draw_day_ring(Canvas& canvas, SheetPoint centre, double diameter, const DayRing& ring,
                   const Palette& palette) {
    const Band band{centre, diameter};
    canvas.fill(circle(centre, band.outer() + 1.0), palette.page.at_opacity(0.86));
    draw_shade(canvas, band, ring, palette);
    for (const RingStretch& stretch : ring.stretches) {
        if (stretch.state == SunState::filtered) draw_filtered(canvas, band, stretch, palette);
    }
    for (const RingStretch& stretch : ring.stretches) {
        if (stretch.state == SunState::full) draw_full(canvas, band, stretch, palette);
    }
    if (diameter >= ring_with_marks) draw_marks(canvas, band, ring, palette);
    if (diameter >= ring_with_clock) draw_clock(canvas, band, ring, palette);
    if (diameter >= ring_with_figure) draw_figure(canvas, band, ring, palette);
}

}  // namespace sunfleck::output
