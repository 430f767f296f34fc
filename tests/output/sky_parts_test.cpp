#include "base/within.h"
#include "output/pixels.h"
#include "sunfleck/output/day_arch.h"
#include "sunfleck/output/year_sheet.h"
#include "sunfleck/sun/sun_day.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace sunfleck;
using namespace sunfleck::output;
using sunfleck::output::test::difference;
using sunfleck::output::test::Pixels;
using sunfleck::test::within;

namespace {

const sun::Place london{Latitude::degrees(51.5), Longitude::degrees(-0.3), 20.0};
const Date june = make_date(2026, 6, 21);

sun::TimeZone zone() {
    return sun::TimeZone::find("Europe/London").value();
}

std::vector<YearColumn> daylight_of_2026() {
    std::vector<exposure::DayExposure> days;
    for (Date date = make_date(2026, 1, 1); date <= make_date(2026, 12, 31);
         date = add_days(date, 1)) {
        days.push_back({.date = date});
    }
    return year_columns(days, london, zone());
}

}  // namespace

TEST_CASE("the arch's hours run evenly from 3 to 23", "[output][property]") {
    const SheetBox box = box_at({100.0, 0.0}, 400.0, 100.0);
    const DayArch arch{.date = june, .place = london, .at = {}, .spans = {}};
    CHECK(arch_hour_at(box, arch, zone(), 100.0) == within(3.0, 1e-9));
    CHECK(arch_hour_at(box, arch, zone(), 300.0) == within(13.0, 1e-9));
    CHECK(arch_hour_at(box, arch, zone(), 500.0) == within(23.0, 1e-9));
    CHECK(arch_hour_at(box, arch, zone(), -1000.0) == within(3.0, 1e-9));
    CHECK(arch_hour_at(box, arch, zone(), 9000.0) == within(23.0, 1e-9));
    // In the polar day it shows the whole day.
    const sun::Place tromso{Latitude::degrees(69.65), Longitude::degrees(18.96), 0.0};
    const DayArch polar{.date = june, .place = tromso, .at = {}, .spans = {}};
    const auto oslo = sun::TimeZone::find("Europe/Oslo").value();
    CHECK(arch_hour_at(box, polar, oslo, 100.0) == within(0.0, 1e-9));
    CHECK(arch_hour_at(box, polar, oslo, 500.0) == within(24.0, 1e-9));
}

TEST_CASE("a spot's day lies along the arch in its textures", "[output][property]") {
    const SheetBox box = box_at({0.0, 0.0}, 400.0, 118.0);
    const auto day = sun::sun_day(june, london, zone());
    const std::vector<exposure::SunSpan> spans{
        {exposure::SunState::shade, day.up_from, day.solar_noon.plus_seconds(-3600.0), 0.0},
        {exposure::SunState::full, day.solar_noon.plus_seconds(-3600.0),
         day.solar_noon.plus_seconds(3600.0), 1.0},
        {exposure::SunState::shade, day.solar_noon.plus_seconds(3600.0), day.up_to, 0.0}};
    const auto drawn = [&](std::span<const exposure::SunSpan> shown) {
        const auto canvas = pixel_canvas({400.0, 118.0}, 1.0);
        canvas->fill(rectangle(box), morning.page);
        draw_day_arch(*canvas, box, {.date = june, .place = london, .at = {}, .spans = shown},
                      zone());
        return Pixels(canvas->finish().value());
    };
    // Sun-coloured pixels stand in the middle of the arch's top and nowhere without spans.
    const auto count = [](const Pixels& pixels, int from_x, int to_x) {
        int found = 0;
        for (int x = from_x; x < to_x; ++x) {
            for (int y = 0; y < pixels.height(); ++y) {
                if (difference(pixels.at(x, y), morning.sun) < 8) ++found;
            }
        }
        return found;
    };
    const Pixels with_spot = drawn(spans);
    const Pixels plain = drawn({});
    CHECK(count(plain, 0, 400) == 0);
    CHECK(count(with_spot, 0, 150) == 0);
    CHECK(count(with_spot, 185, 220) > 100);
    CHECK(count(with_spot, 260, 400) == 0);
}

TEST_CASE("the strip's point is where the hand is", "[output][property]") {
    const auto columns = daylight_of_2026();
    const SheetBox box = box_at({50.0, 10.0}, 365.0, 100.0);
    CHECK(year_point_at(box, columns, {50.0, 60.0}).date == make_date(2026, 1, 1));
    CHECK(year_point_at(box, columns, {414.9, 60.0}).date == make_date(2026, 12, 31));
    CHECK(year_point_at(box, columns, {9000.0, 60.0}).date == make_date(2026, 12, 31));
    CHECK(year_point_at(box, columns, {-9000.0, -9000.0}).date == make_date(2026, 1, 1));
    const ClockRun hours = shown_hours(columns);
    CHECK(year_point_at(box, columns, {90.0, -9000.0}).hour == within(hours.from_h, 1e-9));
    CHECK(year_point_at(box, columns, {90.0, 9000.0}).hour == within(hours.to_h, 1e-9));
    for (int day = 0; day < 365; day += 7) {
        const auto point = year_point_at(box, columns, {50.5 + day, 60.0});
        CHECK(point.date == add_days(make_date(2026, 1, 1), day));
    }
}

TEST_CASE("the strip's flag stands at its date and stays on the strip", "[output][property]") {
    const auto columns = daylight_of_2026();
    const SheetBox box = box_at({10.0, 0.0}, 365.0, 100.0);
    for (const Date date : {make_date(2026, 1, 2), june, make_date(2026, 12, 30)}) {
        const auto canvas = pixel_canvas({400.0, 100.0}, 1.0);
        canvas->fill(rectangle(box_at({}, 400.0, 100.0)), morning.page);
        draw_year_strip(*canvas, box, columns, {.date = date, .hour = 12.0});
        const Pixels pixels(canvas->finish().value());
        int lowest_x = 400;
        int highest_x = 0;
        int on_line = 0;
        for (int x = 0; x < 400; ++x) {
            for (int y = 0; y < 100; ++y) {
                if (difference(pixels.at(x, y), morning.berry) > 40) continue;
                lowest_x = std::min(lowest_x, x);
                highest_x = std::max(highest_x, x);
                const double line = 10.0 + days_between(make_date(2026, 1, 1), date);
                if (std::abs(x - line) <= 1.5) ++on_line;
            }
        }
        CAPTURE(iso_date(date), lowest_x, highest_x);
        CHECK(on_line > 40);
        // The pennant flies inside; the hour's dot, 6 px wide to each side, may reach out.
        CHECK(lowest_x >= 10 - 6);
        CHECK(highest_x <= 375 + 6);
    }
}

TEST_CASE("pixels are those of the picture's file", "[output][cross]") {
    const auto canvas = pixel_canvas({30.0, 20.0}, 2.0);
    canvas->fill(rectangle(box_at({}, 30.0, 20.0)), morning.page);
    canvas->fill(rectangle(box_at({5.0, 5.0}, 10.0, 10.0)), morning.clay);
    CHECK(canvas->width_px() == 60);
    CHECK(canvas->height_px() == 40);
    const auto bytes = canvas->pixels();
    std::vector<unsigned char> kept(bytes.begin(), bytes.end());
    const int row = canvas->row_bytes();
    const Pixels png(canvas->finish().value());
    REQUIRE(kept.size() == static_cast<std::size_t>(row) * 40);
    for (int y = 0; y < 40; y += 3) {
        for (int x = 0; x < 60; x += 3) {
            const auto at = static_cast<std::size_t>(y * row + 4 * x);
            const Colour shown{kept[at + 2], kept[at + 1], kept[at]};
            CHECK(difference(shown, png.at(x, y)) == 0);
        }
    }
}
