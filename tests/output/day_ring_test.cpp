#include "sunfleck/output/day_ring.h"

#include "base/within.h"
#include "output/pixels.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace sunfleck;
using namespace sunfleck::output;
using exposure::SunState;
using sunfleck::output::test::difference;
using sunfleck::output::test::Pixels;
using sunfleck::test::within;

namespace {

constexpr double noon_s = 1'782'000'000.0;
const UtcSeconds noon = UtcSeconds::since_1970(noon_s);
const Latitude north = Latitude::degrees(51.5);
const Latitude south = Latitude::degrees(-37.8);

UtcSeconds hours_from_noon(double hours) {
    return noon.plus_seconds(3600.0 * hours);
}

/// Sun from 8 h before noon to 8 h after: shade, full 6 h before to noon, filtered to 4 h after,
/// shade again.
exposure::DayExposure sample_day() {
    exposure::DayExposure day;
    day.total.full_min = 360.0;
    day.total.filtered_min = 240.0;
    const auto add = [&](SunState state, double from, double to) {
        day.spans.push_back({state, hours_from_noon(from), hours_from_noon(to), 0.0});
    };
    add(SunState::shade, -8, -6);
    add(SunState::full, -6, 0);
    add(SunState::filtered, 0, 4);
    add(SunState::shade, 4, 8);
    return day;
}

sun::SunDay sample_sun() {
    sun::SunDay day;
    day.solar_noon = noon;
    day.up_from = hours_from_noon(-8);
    day.up_to = hours_from_noon(8);
    return day;
}

constexpr double diameter = 200.0;
constexpr double scale = 2.0;
const SheetPoint centre{150.0, 150.0};

Pixels drawn_ring(Latitude latitude) {
    const auto canvas = raster_canvas({300.0, 300.0}, scale);
    canvas->fill(rectangle(box_at({0, 0}, 300, 300)), morning.grass);
    draw_day_ring(*canvas, centre, diameter, day_ring(sample_day(), sample_sun(), latitude, {}));
    return Pixels(canvas->finish().value());
}

/// The pixel of the band at an angle; `depth` 0 at its outer edge, 1 at its inner.
SheetPoint on_band(double angle_deg, double depth) {
    const double radius = 0.5 * diameter - depth * band_width(diameter);
    return scale * on_circle(centre, radius, Angle::degrees(angle_deg));
}

/// How often the grey of the band's middle crosses `level` between two angles.
int crossings(const Pixels& pixels, double from_deg, double to_deg, double level) {
    int count = 0;
    bool was_over = false;
    for (double angle = from_deg; angle <= to_deg; angle += 0.1) {
        const SheetPoint at = on_band(angle, 0.5);
        const bool is_over = pixels.grey(at.x, at.y) > level;
        if (angle > from_deg && is_over != was_over) ++count;
        was_over = is_over;
    }
    return count;
}

}  // namespace

TEST_CASE("noon is up and an hour is fifteen degrees on every date", "[output][property]") {
    CHECK(ring_angle(noon, noon, north).in_degrees() == within(0.0, 1e-9));
    CHECK(ring_angle(hours_from_noon(3), noon, north).in_degrees() == Approx(45.0));
    CHECK(ring_angle(hours_from_noon(-6), noon, north).in_degrees() == Approx(-90.0));
    CHECK(ring_angle(hours_from_noon(12), noon, north).in_degrees() == Approx(180.0));
}

TEST_CASE("the ring is mirrored south of the equator, not on it", "[output][property]") {
    for (const double hours : {-7.5, -1.0, 0.25, 5.0}) {
        CAPTURE(hours);
        CHECK(ring_angle(hours_from_noon(hours), noon, south).in_degrees() ==
              Approx(-15.0 * hours));
        CHECK(ring_angle(hours_from_noon(hours), noon, Latitude::degrees(0.0)).in_degrees() ==
              Approx(15.0 * hours));
    }
}

TEST_CASE("the band's share grows as the ring shrinks", "[output][property]") {
    struct Row {
        double diameter;
        double band;
        double pitch;
    };
    for (const Row& row : {Row{16, 2.72, 2.6}, Row{18, 3.06, 2.6}, Row{24, 3.6, 2.6},
                           Row{40, 4.8, 3.4}, Row{60, 7.2, 3.4}, Row{96, 8.16, 5.0}}) {
        CAPTURE(row.diameter);
        CHECK(band_width(row.diameter) == Approx(row.band));
        CHECK(bar_pitch(row.diameter) == Approx(row.pitch));
    }
}

TEST_CASE("the hot hours are an arc from 15 degrees before noon to 60 after",
          "[output][property]") {
    const DayRing ring = day_ring(sample_day(), sample_sun(), north, {});
    CHECK(ring.hot_from.in_degrees() == Approx(-15.0));
    CHECK(ring.hot_to.in_degrees() == Approx(60.0));
    const DayRing mirrored = day_ring(sample_day(), sample_sun(), south, {});
    CHECK(mirrored.hot_from.in_degrees() == Approx(15.0));
    CHECK(mirrored.hot_to.in_degrees() == Approx(-60.0));
}

TEST_CASE("each hour of the band has its state's colour", "[output][property]") {
    const Pixels pixels = drawn_ring(north);
    const auto colour = [&](double angle_deg, double depth) {
        const SheetPoint at = on_band(angle_deg, depth);
        return pixels.at(at.x, at.y);
    };
    // Three hours before noon: full sun over the whole width of the band.
    for (const double depth : {0.15, 0.5, 0.85}) CHECK(colour(-45, depth) == morning.sun);
    // Seven hours before noon: shade in the middle third alone.
    CHECK(colour(-105, 0.5) == morning.shade);
    CHECK(difference(colour(-105, 0.12), morning.shade) > 3);
    CHECK(difference(colour(-105, 0.88), morning.shade) > 3);
    // Midnight: the open foot shows the disc.
    CHECK(difference(colour(180, 0.5), morning.page) < 8);
    // Beyond the disc the ground is untouched.
    CHECK(pixels.at(5, 5) == morning.grass);
}

TEST_CASE("the sun rises on the left in the north and on the right in the south",
          "[output][property]") {
    const Pixels in_north = drawn_ring(north);
    const Pixels in_south = drawn_ring(south);
    const SheetPoint left = on_band(-45, 0.5);
    const SheetPoint right = on_band(45, 0.5);
    CHECK(in_north.at(left.x, left.y) == morning.sun);
    CHECK(in_south.at(right.x, right.y) == morning.sun);
    CHECK(in_north.at(right.x, right.y) != morning.sun);
    CHECK(in_south.at(left.x, left.y) != morning.sun);
}

TEST_CASE("in grey the three suns differ by their shape", "[output][property]") {
    const Pixels pixels = drawn_ring(north);
    const double level = 0.5 * (255.0 + 60.0);
    // Full: one tone. Filtered: as many bars as the pitch asks, each crossed twice.
    CHECK(crossings(pixels, -85, -5, level) == 0);
    const double middle = 0.5 * diameter - 0.5 * band_width(diameter);
    const double bars = 60.0 * std::numbers::pi / 180.0 * middle / bar_pitch(diameter);
    CHECK(crossings(pixels, 0.2, 59.8, level) == within(2.0 * std::round(bars), 2.0));
    // Shade: across the band only the middle third is drawn.
    int drawn = 0;
    const int steps = 34;
    for (int i = 0; i < steps; ++i) {
        const SheetPoint at = on_band(-105, (i + 0.5) / steps);
        const Colour here = pixels.at(at.x, at.y);
        if (difference(here, morning.shade) < 6 || pixels.grey(at.x, at.y) < 150.0) ++drawn;
    }
    CHECK(drawn > 8);
    CHECK(drawn < 19);
}

TEST_CASE("a day without sun leaves the ring open", "[output][property]") {
    exposure::DayExposure night;
    sun::SunDay dark = sample_sun();
    dark.up_from = dark.up_to = noon;
    const auto canvas = raster_canvas({300.0, 300.0}, scale);
    canvas->fill(rectangle(box_at({0, 0}, 300, 300)), morning.grass);
    draw_day_ring(*canvas, centre, diameter, day_ring(night, dark, north, {}));
    const Pixels pixels(canvas->finish().value());
    for (const double angle_deg : {-135.0, -45.0, 45.0, 90.0}) {
        const SheetPoint at = on_band(angle_deg, 0.5);
        CHECK(difference(pixels.at(at.x, at.y), morning.page) < 8);
    }
}
