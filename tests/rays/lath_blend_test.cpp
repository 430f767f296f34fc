// Thin laths near by, and the same from afar, against what their geometry says.
#include "rays/lath_boxes.h"
#include "rays/light_cases.h"
#include "sunfleck/rays/light_sums.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::test;

namespace {

// Laths run north over a spot on the equator at the equinox, so that the sun crosses them square.
geometry::Piece roof(double height_m, double slat_m, double gap_m) {
    const int count = 201;
    const double pitch = slat_m + gap_m;
    geometry::Piece piece =
        lath_panel({-0.5 * (count - 1) * pitch, -2.0, height_m}, 4.0, count, slat_m, gap_m, 0.001);
    geometry::fit_box(piece);
    return piece;
}

struct Traced {
    rays::SunTable sun{rays::dates_from_to(make_date(2026, 3, 20), make_date(2026, 3, 20)),
                       test_place(0.0)};
    geometry::Garden garden;
    rays::LightSpans light;

    Traced(geometry::Piece piece, Vec3 spot, bool resolves)
        : garden(garden_of({std::move(piece)})), light(trace(spot, resolves)) {}

    [[nodiscard]] rays::LightSpans trace(Vec3 spot, bool resolves) const {
        const std::vector<rays::LightSpot> spots{{.point = spot, .outward = {}}};
        return rays::make_solving_tracer(garden, sun)
            ->trace({.spots = spots,
                     .resolves_all_laths = resolves,
                     .longest_varying_min = 15,
                     .thread_count = 1});
    }
    // Minutes of effective sun in the hour and a half around noon, 45 minutes each way.
    [[nodiscard]] double effective_around_noon() const {
        const UtcSeconds noon = sun.days()[0].up_from.plus_seconds(
            0.5 * sun.days()[0].up_to.seconds_after(sun.days()[0].up_from));
        return rays::minutes_between(sun, light, 0, 0, noon.plus_seconds(-2700.0),
                                     noon.plus_seconds(2700.0))
            .effective_min;
    }
};

}  // namespace

TEST_CASE("Slats of 10 mm at 3 m are all found, one by one", "[rays][property]") {
    // In 90 min around noon the sun goes 11.25 degrees to each side: 1.19 m of the roof at 3 m,
    // which is 19.9 pitches of 60 mm. Each slat of 10 mm is passed in 46 s, less than a sample.
    const Traced near(roof(3.0, 0.010, 0.050), {0.011, 0.0, 0.0}, true);
    const auto spans = near.light.day(0, 0);
    const auto gaps = std::count_if(spans.begin(), spans.end(), [&](const rays::LightSpan& span) {
        const rays::SunTableDay& day = near.sun.days()[0];
        const double from_noon =
            (span.from_tick - 0.5 * (day.up_from_tick + day.up_to_tick)) / 32.0;
        return std::abs(from_noon) < 45.0;
    });
    CHECK(gaps >= 19);
    CHECK(gaps <= 20);
    // A sixth of the light is taken; the thickness of 1 mm adds at most 2 % of a slat's width.
    CHECK(near.effective_around_noon() == Approx(75.0).margin(1.0));
}

TEST_CASE("A blurred panel lets its mean through", "[rays][property]") {
    // 20 mm of pitch at 3 m is 0.38 degrees: only the mean is seen.
    const Traced far(roof(3.0, 0.010, 0.010), {0.0, 0.0, 0.0}, false);
    CHECK(far.effective_around_noon() == Approx(45.0).margin(1.0));
    CHECK(far.light.day(0, 0).size() <= 30);  // single slats would be hundreds
}

TEST_CASE("Between sharp and blurred the light does not jump", "[rays][property]") {
    // From 1 degree of pitch over distance to half a degree, spot by spot farther below.
    double before = -1.0;
    for (double height = 1.6; height < 4.2; height += 0.2) {
        CAPTURE(height);
        const Traced traced(roof(height, 0.015, 0.015), {0.0, 0.0, 0.0}, false);
        const double effective = traced.effective_around_noon();
        // Half of the light; a slat more or less within the window is 1 min of 90 and some.
        CHECK(effective == Approx(45.0).margin(2.5));
        if (before >= 0.0) CHECK(std::abs(effective - before) < 2.5);
        before = effective;
    }
}

TEST_CASE("A lath's box is the lath that rays meet", "[rays][property]") {
    Dice dice(12);
    long met = 0;
    for (int i = 0; i < 4000; ++i) {
        const geometry::Piece panel =
            turned_laths({0, 0, 0}, dice.between(0, 6), dice.between(-1, 1), dice.between(-80, 80),
                         dice.between(0.02, 0.06), dice.between(0.01, 0.06), 5);
        const auto& laths = std::get<geometry::LathBody>(panel.body);
        // Near enough that every lath is sharp.
        const Vec3 spot = laths.corner + 0.15 * dice.direction();
        const Vec3 direction = dice.direction();
        bool is_met = false;
        for (const geometry::ConvexSolid& box : rays::lath_boxes(laths)) {
            geometry::Piece lath;
            lath.body = box;
            geometry::fit_box(lath);
            is_met = is_met || geometry::pass(lath, {}, spot, direction).is_met;
        }
        const auto blend = geometry::lath_blend(laths, spot, direction);
        if (blend.sharp < 1.0) continue;
        met += is_met ? 1 : 0;
        CHECK(is_met == geometry::pass(panel, {}, spot, direction).is_met);
    }
    CHECK(met > 200);
}
