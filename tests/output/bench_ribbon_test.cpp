#include "sunfleck/output/bench_ribbon.h"

#include "output/pixels.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::output;
using exposure::SunState;

namespace {

UtcSeconds hour(double value) {
    return UtcSeconds::since_1970(1'782'000'000.0 + 3600.0 * value);
}

BenchRibbon sample_ribbon() {
    BenchRibbon ribbon;
    for (int i = 4; i < 22; ++i) ribbon.hours.push_back({i, hour(i), hour(i + 1)});
    ribbon.hot_from = hour(11);
    ribbon.hot_to = hour(16);
    ribbon.columns.push_back({1, {{SunState::full, hour(5), hour(20), 1.0}}});
    ribbon.columns.push_back({2,
                              {{SunState::full, hour(5), hour(10), 1.0},
                               {SunState::filtered, hour(10), hour(17), 0.6},
                               {SunState::shade, hour(17), hour(20), 0.0}}});
    return ribbon;
}

/// Whether a colour stands in a column's cell between two hours. Cells are 14 px wide and begin
/// 20 px from the left; an hour is 5 px high, the first 4 o'clock.
bool shows(const test::Pixels& pixels, int column, double from, double to, Colour colour) {
    for (double y = 5.0 * (from - 4.0) + 1.0; y < 5.0 * (to - 4.0) - 1.0; y += 0.5) {
        for (double x = 21.5 + 14.0 * column; x < 32.5 + 14.0 * column; x += 0.5) {
            if (test::difference(pixels.at(2.0 * x, 2.0 * y), colour) < 12) return true;
        }
    }
    return false;
}

}  // namespace

TEST_CASE("full sun in the hot hours has a clay box, and only there", "[output][property]") {
    const auto canvas = raster_canvas({80.0, 120.0}, 2.0);
    draw_bench_ribbon(*canvas, {0.0, 0.0}, sample_ribbon());
    const test::Pixels pixels(canvas->finish().value());
    CHECK(shows(pixels, 0, 11.3, 15.7, morning.clay));
    CHECK_FALSE(shows(pixels, 0, 6, 10, morning.clay));
    CHECK_FALSE(shows(pixels, 1, 11.5, 15.5, morning.clay));
    CHECK(shows(pixels, 1, 6, 9, morning.sun));
    CHECK(shows(pixels, 1, 12, 15, morning.filtered));
    CHECK(shows(pixels, 1, 18, 19.5, morning.shade));
}

TEST_CASE("a ribbon is as wide as its spots and as high as its hours", "[output][property]") {
    BenchRibbon ribbon = sample_ribbon();
    const SheetSize two = ribbon_size(ribbon);
    ribbon.columns.push_back(ribbon.columns.back());
    CHECK(ribbon_size(ribbon).width - two.width == Approx(14.0));
    CHECK(two.height == Approx(18 * 5.0 + 15.0));
}
