#include "sunfleck/exposure/spot_sun.h"

#include "base/within.h"
#include "exposure/traced_spot.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <optional>

using namespace sunfleck;
using namespace sunfleck::test;
using exposure::SunState;

namespace {

const sun::Place ealing = place_at(51.5, -0.3);
const Date june = make_date(2026, 6, 21);
const Date march = make_date(2026, 3, 20);

Angle altitude_of(Vec3 direction) {
    return Angle::radians(std::asin(direction.z));
}
double azimuth_deg_of(Vec3 direction) {
    const double degrees = Angle::radians(std::atan2(direction.x, direction.y)).in_degrees();
    return degrees < 0.0 ? degrees + 360.0 : degrees;
}

// When the sun's middle passes an azimuth, by bisection; it turns clockwise all day here.
UtcSeconds when_azimuth(const exposure::SunArc& arc, double azimuth_deg) {
    UtcSeconds low = arc.from();
    UtcSeconds high = arc.to();
    while (high.seconds_after(low) > 0.001) {
        const UtcSeconds middle = low.plus_seconds(0.5 * high.seconds_after(low));
        (azimuth_deg_of(arc.direction(middle)) < azimuth_deg ? low : high) = middle;
    }
    return low;
}

double fill(const std::vector<exposure::SunSlice>& slices) {
    double gap_s = 0.0;
    for (std::size_t i = 1; i < slices.size(); ++i) {
        gap_s += std::abs(slices[i].from.seconds_after(slices[i - 1].to));
    }
    return gap_s;
}

}  // namespace

TEST_CASE("an open spot has the sun from rise to set", "[exposure][closed form]") {
    const TestDay today(june, ealing);
    const auto day = HandGarden({}).exposure(today.arc, {0, 0, 1});
    CHECK(day.total.sun_up_min ==
          Approx(today.arc.to().seconds_after(today.arc.from()) / 60.0).epsilon(1e-12));
    // Only the disk's passage over the horizon is lost: half of it hides half the time, and the
    // day begins as the disk's upper edge appears.
    CHECK(day.total.full_min < day.total.sun_up_min - 3.0);
    CHECK(day.total.full_min > day.total.sun_up_min - 8.0);
    CHECK(day.total.filtered_min <= 0.0);
    REQUIRE(day.spans.size() == 3);
    CHECK(altitude_of(today.arc.direction(*day.first_sun)).in_degrees() == within(0.0, 0.002));
    CHECK(altitude_of(today.arc.direction(*day.last_sun)).in_degrees() == within(0.0, 0.002));
}

TEST_CASE("an upright edge is passed when the sun's middle passes it", "[exposure][closed form]") {
    const TestDay today(march, ealing);
    // A wall to the south from bearing 150 degrees on to 230, high enough for the day.
    const double d = 4.0;
    const double east = d * std::tan(Angle::degrees(30.0).in_radians());
    const double west = -d * std::tan(Angle::degrees(50.0).in_radians());
    const HandGarden garden({solid_box({west, -d - 0.0001, -1}, {east, -d, 30})});
    const auto day = garden.exposure(today.arc, {0, 0, 1});
    std::vector<exposure::SunSpan> full;
    for (const auto& span : day.spans) {
        if (span.state == SunState::full) full.push_back(span);
    }
    REQUIRE(full.size() == 2);
    const UtcSeconds leaves = when_azimuth(today.arc, 150.0);
    const UtcSeconds comes = when_azimuth(today.arc, 230.0);
    CHECK(std::abs(full[0].to.seconds_after(leaves)) < 1.0);
    CHECK(std::abs(full[1].from.seconds_after(comes)) < 1.0);
    const double hidden_min = comes.seconds_after(leaves) / 60.0;
    const auto open = HandGarden({}).exposure(today.arc, {0, 0, 1});
    CHECK(open.total.full_min - day.total.full_min == within(hidden_min, 0.04));
}

TEST_CASE("slices and spans fill the day and add up", "[exposure][property]") {
    const TestDay today(june, ealing);
    Dice dice(3);
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        const HandGarden garden(random_garden(seed).pieces);
        for (int i = 0; i < 6; ++i) {
            const Vec3 point = dice.point(-4.0, 2.0);
            const auto sun = garden.day(today.arc, point);
            CHECK(sun.slices.front().from == today.arc.from());
            CHECK(sun.slices.back().to == today.arc.to());
            CHECK(fill(sun.slices) <= 0.0);
            REQUIRE_FALSE(sun.spans.empty());
            CHECK(sun.spans.front().from == today.arc.from());
            CHECK(sun.spans.back().to == today.arc.to());
            for (std::size_t k = 1; k < sun.spans.size(); ++k) {
                CHECK(sun.spans[k].from == sun.spans[k - 1].to);
                CHECK(sun.spans[k].state != sun.spans[k - 1].state);
            }
            const auto day = exposure::day_exposure(june, sun, {}, {});
            CHECK(day.total.full_min + day.total.filtered_min + day.total.shade_min ==
                  Approx(day.total.sun_up_min).epsilon(1e-9));
            CHECK(day.total.effective_min >= day.total.full_min - 1e-9);
            CHECK(day.total.effective_min <= day.total.full_min + day.total.filtered_min + 1e-9);
        }
    }
}

TEST_CASE("an occluder more never raises the effective sun", "[exposure][property]") {
    const TestDay today(june, ealing);
    Dice dice(7);
    std::vector<geometry::Piece> pieces;
    const auto all = random_garden(9, 12).pieces;
    std::vector<double> before(4, 1e9);
    std::vector<Vec3> points;
    for (int i = 0; i < 4; ++i) points.push_back(dice.point(-3.0, 1.0));
    int lowered = 0;
    for (const geometry::Piece& piece : all) {
        pieces.push_back(piece);
        const HandGarden garden(pieces);
        for (std::size_t i = 0; i < points.size(); ++i) {
            const double now = garden.exposure(today.arc, points[i]).total.effective_min;
            // The sum over the disk in time errs by up to 0.02 min an edge.
            CHECK(now <= before[i] + 0.05);
            if (now < before[i] - 1.0) ++lowered;
            before[i] = now;
        }
    }
    CHECK(lowered > 8);
}

TEST_CASE("the day agrees with rays cast every two seconds", "[exposure][cross]") {
    // The reference engine at the middle of the disk against spans of a point sun.
    const TestDay today(june, ealing, {.is_refracted = true, .has_disk = false});
    Dice dice(13);
    for (std::uint64_t seed = 31; seed <= 33; ++seed) {
        const HandGarden garden(random_garden(seed).pieces);
        for (int i = 0; i < 2; ++i) {
            const std::vector<Vec3> point{dice.point(-4.0, 2.0)};
            double full_s = 0.0;
            double filtered_s = 0.0;
            const double step_s = 2.0;
            const double whole_s = today.arc.to().seconds_after(today.arc.from());
            for (double s = 0.5 * step_s; s < whole_s; s += step_s) {
                const Vec3 d = today.arc.direction(today.arc.from().plus_seconds(s));
                std::vector<geometry::Passage> passage(1);
                garden.engine().pass_towards(d, garden.optics(), point, passage);
                if (!geometry::is_over_horizon(garden.garden().horizon, d)) continue;
                if (!passage[0].is_met) full_s += step_s;
                if (passage[0].is_met && passage[0].transmittance > 0.0) filtered_s += step_s;
            }
            const auto day = garden.exposure(today.arc, point[0]);
            const double edges = static_cast<double>(day.spans.size());
            CAPTURE(seed, i, edges);
            CHECK(span_minutes(day.spans, SunState::full) ==
                  within(full_s / 60.0, 0.02 + edges * 0.02));
            CHECK(span_minutes(day.spans, SunState::filtered) ==
                  within(filtered_s / 60.0, 0.02 + edges * 0.02));
        }
    }
}

TEST_CASE("a post of 5 cm across the garden is never missed", "[exposure][property]") {
    // At 12 m it is 0.24 degrees wide, half the sun: it dims the sun, about a minute of it.
    const TestDay today(june, ealing);
    const auto open = HandGarden({}).exposure(today.arc, {0, 0, 1});
    Dice dice(17);
    for (int i = 0; i < 20; ++i) {
        const double bearing = Angle::degrees(dice.between(100.0, 260.0)).in_radians();
        const Vec3 foot{12.0 * std::sin(bearing), 12.0 * std::cos(bearing), 0.0};
        const HandGarden garden({solid_box(foot - Vec3{0.025, 0.025, 0},
                                           foot + Vec3{0.025, 0.025, 60}, 0.0, -bearing)});
        const auto day = garden.exposure(today.arc, {0, 0, 1});
        const double lost_min = open.total.full_min - day.total.full_min;
        // Time that the post's width takes to pass: width over the sun's speed in azimuth.
        const UtcSeconds at = when_azimuth(today.arc, Angle::radians(bearing).in_degrees());
        const double turn_deg = azimuth_deg_of(today.arc.direction(at.plus_seconds(30))) -
                                azimuth_deg_of(today.arc.direction(at.plus_seconds(-30)));
        const double width_deg = Angle::radians(0.05 / 12.0).in_degrees();
        CHECK(lost_min == within(width_deg / turn_deg, 0.04));
    }
}

TEST_CASE("laths of 10 mm at 3 m melt into even half-light", "[exposure][closed form]") {
    // Pitch 20 mm at 3 m is 0.38 degrees: below the half degree at which laths are averaged.
    // Laths along the sun's noon bearing: share let through is gap over pitch, less thickness.
    const TestDay today(march, ealing);
    const double thickness = 0.001;
    const HandGarden garden({lath_panel({-8, -12, 4}, 24.0, 800, 0.010, 0.010, thickness)});
    auto spot = garden.spot({.point = {0, 0, 1}, .outward = {}});
    const auto noon = spot.shares_at(today.arc, garden.optics(), today.day.solar_noon);
    CHECK(noon.full <= 0.0);
    CHECK(noon.filtered >= 1.0);
    CHECK(noon.effective == within(0.5, 0.03));
}

TEST_CASE("wide laths near by show each stripe", "[exposure][property]") {
    // 40 mm laths and gaps 1 m up: 2.3 degrees each, passed in some 7 to 10 min around noon.
    const TestDay today(june, ealing);
    const HandGarden garden({lath_panel({-3, -3, 2}, 6.0, 75, 0.04, 0.04, 0.004)});
    const auto day = garden.exposure(today.arc, {0.013, 0, 1});
    int stripes = 0;
    for (const auto& span : day.spans) {
        const double off_h = std::abs(today.minutes_after_noon(span.from)) / 60.0;
        if (off_h > 1.5 || span.state != SunState::full) continue;
        ++stripes;
        const double minutes = span.to.seconds_after(span.from) / 60.0;
        CHECK(minutes > 3.0);
        CHECK(minutes < 12.0);
    }
    CHECK(stripes >= 8);
    CHECK(stripes <= 22);
}

TEST_CASE("light through a crown is its path's", "[exposure][cross]") {
    const TestDay today(june, ealing);
    const HandGarden garden({ball_crown({0, -1.2, 3.2}, 1.5, 0.4)});
    const Vec3 point{0, 0, 1};
    const auto day = garden.exposure(today.arc, point);
    double effective_s = 0.0;
    const double whole_s = today.arc.to().seconds_after(today.arc.from());
    for (double s = 2.5; s < whole_s; s += 5.0) {
        auto spot = garden.spot({.point = point, .outward = {}});
        const UtcSeconds at = today.arc.from().plus_seconds(s);
        effective_s += 5.0 * spot.shares_at(today.arc, garden.optics(), at).effective;
    }
    CHECK(day.total.filtered_min > 60.0);
    CHECK(day.total.effective_min == within(effective_s / 60.0, 0.1));
}

TEST_CASE("a point of a pot's wall sees its own half of the sky", "[exposure][closed form]") {
    const TestDay today(march, ealing);
    const HandGarden garden({});
    const Vec3 point{0, 0, 1};
    const auto of = [&](std::optional<Vec3> outward) {
        auto spot = garden.spot({.point = point, .outward = outward});
        return exposure::day_exposure(march, spot.day(today.arc, garden.optics()), {}, {});
    };
    const auto whole = of(std::nullopt);
    const auto east = of(Vec3{1, 0, 0});
    const auto west = of(Vec3{-1, 0, 0});
    const auto north = of(Vec3{0, 1, 0});
    CHECK(east.total.full_min + west.total.full_min == within(whole.total.full_min, 0.05));
    // The east side loses the sun at the meridian passage.
    CHECK(std::abs(east.last_sun->seconds_after(today.day.solar_noon)) < 3.0);
    CHECK(std::abs(west.first_sun->seconds_after(today.day.solar_noon)) < 3.0);
    // At the equinox the sun rises in the east, a hair north of it for refraction, and keeps to
    // the south.
    CHECK(north.total.full_min < 8.0);
}

TEST_CASE("hills of the far horizon hide the disk", "[exposure][closed form]") {
    const TestDay today(march, ealing);
    const HandGarden garden(
        {}, {0, 0, 1},
        {{Angle::degrees(0), Angle::degrees(8)}, {Angle::degrees(180), Angle::degrees(8)}});
    const auto day = garden.exposure(today.arc, {0, 0, 1});
    REQUIRE(day.first_sun);
    CHECK(altitude_of(today.arc.direction(*day.first_sun)).in_degrees() == within(8.0, 0.003));
    CHECK(altitude_of(today.arc.direction(*day.last_sun)).in_degrees() == within(8.0, 0.003));
}

TEST_CASE("a narrow peak on the horizon is not stepped over", "[exposure][property]") {
    const TestDay today(march, ealing);
    const HandGarden flat({});
    const HandGarden peak({}, {0, 0, 1},
                          {{Angle::degrees(100), Angle::degrees(0)},
                           {Angle::degrees(199.9), Angle::degrees(0)},
                           {Angle::degrees(200), Angle::degrees(60)},
                           {Angle::degrees(200.1), Angle::degrees(0)}});
    const double lost_min = flat.exposure(today.arc, {0, 0, 1}).total.full_min -
                            peak.exposure(today.arc, {0, 0, 1}).total.full_min;
    CHECK(lost_min > 0.15);
    CHECK(lost_min < 1.0);
}

TEST_CASE("sun is found wherever a spot has any", "[exposure][property]") {
    const TestDay today(june, ealing);
    // A tin with a slit: 4 mm open at 3 m towards the noon sun.
    std::vector<geometry::Piece> tin{
        solid_box({-3.1, -3, -1}, {-3, 3, 9}),    solid_box({3, -3, -1}, {3.1, 3, 9}),
        solid_box({-3, 3, -1}, {3, 3.1, 9}),      solid_box({-3, -3.1, -1}, {-0.002, -3, 9}),
        solid_box({0.002, -3.1, -1}, {3, -3, 9}), solid_box({-3.1, -3.1, 9}, {3.1, 3.1, 9.1})};
    const HandGarden slit(tin);
    auto spot = slit.spot({.point = {0, 0, 1}, .outward = {}});
    CHECK(spot.has_sun(today.arc, slit.optics()));
    tin.push_back(solid_box({-0.01, -3.2, -1}, {0.01, -3.1, 9}));
    const HandGarden shut(tin);
    auto dark = shut.spot({.point = {0, 0, 1}, .outward = {}});
    CHECK_FALSE(dark.has_sun(today.arc, shut.optics()));
}
