// Five growers' gardens with sun times worked by hand: spherical formulas with a Fourier series
// for the declination, solar time, point sun, no refraction; independent of this program. Stated
// tolerance: offsets 0.03 m, times 3 min, 6 min where one end is sunrise or sunset, dates 2 days.
#include "base/within.h"
#include "exposure/traced_spot.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <optional>

using namespace sunfleck;
using namespace sunfleck::test;
using exposure::SunState;

namespace {

constexpr double offset_m = 0.03;
constexpr double time_min = 3.0;
constexpr double rise_set_min = 6.0;

// How far the shadow of a level net falls beside it, per metre of height.
Vec2 shift_per_m(Vec3 to_sun) {
    return {-to_sun.x / to_sun.z, -to_sun.y / to_sun.z};
}

// A long upright board along a façade: from `from` to `to` metres behind the front line, which
// runs square to `bearing_deg` (where the façade looks) through the origin.
geometry::Piece along_facade(double bearing_deg, double from, double to, double low, double high) {
    return towards(solid_box({-200, -to, low}, {200, -from, high}), Angle::degrees(bearing_deg));
}

Vec3 behind_facade(double bearing_deg, double back_m, double z) {
    const double b = Angle::degrees(bearing_deg).in_radians();
    return {-back_m * std::sin(b), -back_m * std::cos(b), z};
}

// Four walls 6 m high around a court 7 m from west to east, 9 m from south to north.
HandGarden courtyard() {
    return HandGarden({solid_box({-1, -1, 0}, {0, 10, 6}), solid_box({7, -1, 0}, {8, 10, 6}),
                       solid_box({-1, -1, 0}, {8, 0, 6}), solid_box({-1, 9, 0}, {8, 10, 6})});
}

const sun::Place court_place = place_at(48.9, 2.3);

double court_sun_min(Date date, Vec3 point) {
    const TestDay today(date, court_place);
    return courtyard().exposure(today.arc, point).total.full_min;
}

}  // namespace

TEST_CASE("the net square above the bench misses it", "[exposure][scenario]") {
    // 51.5 N 0.3 W; bench 3.0 x 0.6 m west to east, crowns 1.15 m under the net's height.
    const sun::Place place = place_at(51.5, -0.3);
    double north_low = 1e9, north_high = -1e9, east_low = 1e9, east_high = -1e9;
    for (Date date = make_date(2026, 6, 15); date <= make_date(2026, 8, 20);
         date = add_days(date, 1)) {
        const TestDay today(date, place);
        for (double h = -1.0; h <= 3.001; h += 0.1) {
            const Vec2 shift = 1.15 * shift_per_m(today.arc.direction(today.after_noon(h)));
            north_low = std::min(north_low, shift.y);
            north_high = std::max(north_high, shift.y);
            east_low = std::min(east_low, shift.x);
            east_high = std::max(east_high, shift.x);
        }
    }
    CHECK(north_low == within(0.42, offset_m));
    CHECK(north_high == within(0.93, offset_m));
    CHECK(east_low == within(-0.38, offset_m));
    CHECK(east_high == within(1.32, offset_m));
}

TEST_CASE("minutes that the owned net misses are those of its shifted outline",
          "[exposure][scenario]") {
    const sun::Place place = place_at(51.5, -0.3);
    const HandGarden owned({level_cloth({0.0, -0.7}, {3.0, 1.3}, 2.20, 0.6)});
    // The hand-worked smallest net: its edges lie so far beyond the bench's.
    const HandGarden smallest({level_cloth({-1.32 - offset_m, -0.93 - offset_m},
                                           {3.38 + offset_m, 0.18 + offset_m}, 2.20, 0.6)});
    int missed_spots = 0;
    for (const Date date : {make_date(2026, 6, 21), make_date(2026, 8, 20)}) {
        const TestDay today(date, place);
        const std::vector<UtcSeconds> window{today.after_noon(-1.0), today.after_noon(3.0)};
        for (const double x : {0.15, 0.75, 1.5, 2.25, 2.85}) {
            const Vec3 crown{x, 0.3, 1.05};
            double expected_min = 0.0;
            for (double h = -1.0; h < 3.0; h += 1.0 / 360.0) {
                const Vec2 shift = 1.15 * shift_per_m(today.arc.direction(today.after_noon(h)));
                const bool is_under = x - shift.x >= 0.0 && x - shift.x <= 3.0 &&
                                      crown.y - shift.y >= -0.7 && crown.y - shift.y <= 1.3;
                if (!is_under) expected_min += 1.0 / 6.0;
            }
            const auto in_window = [&](const HandGarden& garden) {
                auto spot = garden.spot({.point = crown, .outward = {}});
                const auto sun = spot.day(today.arc, garden.optics(), window);
                return exposure::day_exposure(date, sun, {}, {window[0], window[1]})
                    .total.hot_full_min;
            };
            CAPTURE(iso_date(date), x);
            CHECK(in_window(owned) == within(expected_min, 0.5));
            CHECK(in_window(smallest) < 0.5);
            if (expected_min > 10.0) ++missed_spots;
        }
    }
    // Afternoon sun comes in from the west end.
    CHECK(missed_spots >= 3);
}

TEST_CASE("a balcony under a slab has more sun in December than in June", "[exposure][scenario]") {
    // 41.4 N 2.2 E, façade looking 135 degrees; slab to the railing 2.4 m above the crowns, glass
    // 1.4 m behind; both endless.
    const sun::Place place = place_at(41.4, 2.2);
    const HandGarden balcony(
        {along_facade(135, 0.0, 1.5, 2.4, 2.6), along_facade(135, 1.4, 1.6, -5.0, 2.5)});
    const TestDay june(make_date(2026, 6, 21), place);
    const TestDay december(make_date(2026, 12, 21), place);
    const auto inner_june = balcony.exposure(june.arc, behind_facade(135, 1.10, 0));
    const auto outer_june = balcony.exposure(june.arc, behind_facade(135, 0.30, 0));
    const auto inner_december = balcony.exposure(december.arc, behind_facade(135, 1.10, 0));
    const auto outer_december = balcony.exposure(december.arc, behind_facade(135, 0.30, 0));
    CHECK(june.minutes_after_noon(*inner_june.last_sun) == within(-81.0, time_min));
    CHECK(june.minutes_after_noon(*outer_june.last_sun) == within(34.0, time_min));
    CHECK(december.minutes_after_noon(*inner_december.last_sun) == within(161.0, time_min));
    CHECK(december.minutes_after_noon(*outer_december.last_sun) == within(190.0, time_min));
    CHECK(inner_june.total.full_min == within(6 * 60 + 8, rise_set_min));
    CHECK(inner_december.total.full_min == within(7 * 60 + 11, rise_set_min));
    CHECK(june.arc.from() < *inner_june.first_sun);
    CHECK(inner_june.first_sun->seconds_after(june.arc.from()) / 60.0 < rise_set_min);
}

TEST_CASE("a court's north bench has its spans of sun", "[exposure][scenario]") {
    const Vec3 north_bench{3.5, 8.0, 0.9};
    const Vec3 middle{3.5, 4.5, 0.9};
    const Vec3 south_side{3.5, 1.0, 0.9};
    const Date march = make_date(2026, 3, 20);
    const Date june = make_date(2026, 6, 21);
    CHECK(court_sun_min(march, north_bench) == within(193.0, time_min));
    CHECK(court_sun_min(june, north_bench) == within(289.0, time_min));
    CHECK(court_sun_min(march, middle) <= 0.0);
    CHECK(court_sun_min(june, middle) == within(289.0, time_min));

    const TestDay today(march, court_place);
    const auto day = courtyard().exposure(today.arc, north_bench);
    CHECK(today.minutes_after_noon(*day.first_sun) == within(-97.0, time_min));
    CHECK(today.minutes_after_noon(*day.last_sun) == within(97.0, time_min));

    const HandGarden court = courtyard();
    auto sunless = court.spot({.point = south_side, .outward = {}});
    for (Date date = make_date(2026, 1, 1); year_of(date) == 2026; date = add_days(date, 6)) {
        CHECK_FALSE(sunless.has_sun(TestDay(date, court_place).arc, court.optics()));
    }
}

TEST_CASE("a court's noon sun comes and goes on its dates", "[exposure][scenario]") {
    // First and last date on which half of the disk stands over the south wall at noon.
    const HandGarden court = courtyard();
    auto spot = court.spot({.point = {3.5, 8.0, 0.9}, .outward = {}});
    std::optional<Date> first;
    Date last{};
    for (Date date = make_date(2026, 1, 1); year_of(date) == 2026; date = add_days(date, 1)) {
        const TestDay today(date, court_place);
        if (spot.shares_at(today.arc, court.optics(), today.day.solar_noon).full < 0.5) continue;
        if (!first) first = date;
        last = date;
    }
    REQUIRE(first);
    CHECK(std::abs(days_between(make_date(2026, 2, 27), *first)) <= 2);
    CHECK(std::abs(days_between(make_date(2026, 10, 15), last)) <= 2);
}

TEST_CASE("in the south nothing is mirrored", "[exposure][scenario]") {
    // 37.8 S 145 E, 15 January; clocks at UTC+11.
    const TestDay today(make_date(2026, 1, 15), place_at(-37.8, 145.0));
    const double noon_h = std::fmod(today.day.solar_noon.since_1970(), 86400.0) / 3600.0 + 11.0;
    CHECK(std::fmod(noon_h, 24.0) * 60.0 == within(13 * 60 + 29, time_min));
    const Vec3 noon_sun = today.arc.direction(today.day.solar_noon);
    CHECK(Angle::radians(std::asin(noon_sun.z)).in_degrees() == within(73.4, 0.3));
    CHECK(noon_sun.y > 0.0);
    const Vec2 noon = shift_per_m(noon_sun);
    const Vec2 three = shift_per_m(today.arc.direction(today.after_noon(3.0)));
    const Vec2 four = shift_per_m(today.arc.direction(today.after_noon(4.0)));
    CHECK(noon.x == within(0.0, offset_m));
    CHECK(noon.y == within(-0.30, offset_m));
    CHECK(three.x == within(0.89, offset_m));
    CHECK(three.y == within(-0.16, offset_m));
    CHECK(four.x == within(1.37, offset_m));
    CHECK(four.y == within(0.0, offset_m));
}

TEST_CASE("a level net fails a late afternoon that a west flap covers", "[exposure][scenario]") {
    // The net 1 m over the crowns, 2 m each way; four hours after noon its shadow lies 1.37 m east.
    const TestDay today(make_date(2026, 1, 15), place_at(-37.8, 145.0));
    const Vec3 crown{-0.5, 0.0, 0.0};
    const geometry::Piece net = level_cloth({-1, -1}, {1, 1}, 1.0, 0.5);
    const geometry::Piece flap =
        flat_cloth({Vec3{-1, -1, 1}, {-1, 1, 1}, {-1, 1, 0.1}, {-1, -1, 0.1}}, 0.5);
    const HandGarden level({net});
    const HandGarden flapped({net, flap});
    auto bare = level.spot({.point = crown, .outward = {}});
    auto kept = flapped.spot({.point = crown, .outward = {}});
    const UtcSeconds late = today.after_noon(4.0);
    CHECK(bare.shares_at(today.arc, level.optics(), late).full >= 1.0);
    CHECK(kept.shares_at(today.arc, flapped.optics(), late).filtered >= 1.0);
    CHECK(kept.shares_at(today.arc, flapped.optics(), late).effective == Approx(0.5));
}

TEST_CASE("a slope's uphill ground takes the afternoon", "[exposure][scenario]") {
    // 47 N, ground falling 12 degrees to the north-east.
    const double slope = Angle::degrees(12.0).in_radians();
    const double half = std::sqrt(0.5);
    const HandGarden hillside({},
                              {std::sin(slope) * half, std::sin(slope) * half, std::cos(slope)});
    struct Row {
        Date date;
        double hidden_min;
    };
    const Row rows[] = {{make_date(2026, 12, 21), 151.0},
                        {make_date(2026, 2, 1), 198.0},
                        {make_date(2026, 3, 20), 300.0}};
    for (const Row& row : rows) {
        const TestDay today(row.date, place_at(47.0, 8.0));
        const auto day = hillside.exposure(today.arc, {0, 0, 1});
        CAPTURE(iso_date(row.date));
        CHECK(today.minutes_after_noon(*day.last_sun) == within(row.hidden_min, time_min));
    }
    const TestDay december(make_date(2026, 12, 21), place_at(47.0, 8.0));
    const auto flat = HandGarden({}).exposure(december.arc, {0, 0, 1});
    CHECK(december.minutes_after_noon(*flat.last_sun) == within(250.0, rise_set_min));
}
