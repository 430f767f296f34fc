#include "geometry/lath_passage.h"

#include "base/within.h"
#include "geometry/garden_scenes.h"

#include <catch2/catch.hpp>

#include <array>

using namespace sunfleck;
using namespace sunfleck::geometry;
using sunfleck::test::within;

namespace {

LathBody laths_of(double slat_tilt_deg) {
    LathBody laths;
    laths.along = {0.0, 1.0, 0.0};
    laths.across = {-1.0, 0.0, 0.0};
    laths.up = {0.0, 0.0, 1.0};
    laths.corner = {0.0, 0.0, 0.0};
    laths.length_m = 400.0;
    laths.count = 5000;
    laths.pitch_m = 0.08;
    laths.slat_width_m = 0.04;
    laths.thickness_m = 0.015;
    laths.slat_tilt = Angle::degrees(slat_tilt_deg);
    return laths;
}

/// Rays through evenly spaced places of one pitch in the middle of the panel.
double mean_over_pitch(const LathBody& laths, Vec3 direction, double distance_m, int steps) {
    const Vec3 middle = laths.corner + 200.0 * laths.along + 200.0 * laths.across;
    double sum = 0.0;
    for (int i = 0; i < steps; ++i) {
        const double share = (i + 0.5) / steps;
        const Vec3 place = middle + (share * laths.pitch_m) * laths.across;
        sum += pass_laths(laths, place - distance_m * direction, direction).transmittance;
    }
    return sum / steps;
}

}  // namespace

TEST_CASE("laths met one by one let through what the profile angle says", "[geometry][cross]") {
    constexpr int steps = 4000;
    for (const double tilt : {0.0, 30.0, -45.0, 90.0, 120.0}) {
        const LathBody laths = laths_of(tilt);
        for (const double altitude : {15.0, 40.0, 65.0, 90.0}) {
            for (const double azimuth : {0.0, 50.0, 90.0, 200.0, 270.0}) {
                const Vec3 sun = to_sun(altitude, azimuth);
                const double slope = dot(sun, laths.across) / dot(sun, laths.up);
                CAPTURE(tilt, altitude, azimuth);
                CHECK(mean_over_pitch(laths, sun, 1.0, steps) ==
                      within(mean_lath_transmittance(laths, slope), 4.0 / steps));
            }
        }
    }
}

TEST_CASE("laths' mean light is the same at every distance", "[geometry][property]") {
    const LathBody laths = laths_of(20.0);
    const Vec3 sun = to_sun(55.0, 120.0);
    const double slope = dot(sun, laths.across) / dot(sun, laths.up);
    const double expected = mean_lath_transmittance(laths, slope);
    REQUIRE(expected > 0.1);
    for (double distance_m = 0.5; distance_m < 15.0; distance_m += 0.25) {
        CAPTURE(distance_m);
        CHECK(mean_over_pitch(laths, sun, distance_m, 2000) == within(expected, 2e-3));
    }
}

TEST_CASE("laths fade into their mean between 1 and half a degree without a jump",
          "[geometry][property]") {
    const LathBody laths = laths_of(0.0);
    const Vec3 up{0.0, 0.0, 1.0};
    const Vec3 on_lath = laths.corner + 200.0 * laths.along + (2500 * 0.08) * laths.across;
    const auto light = [&](double distance_m) {
        return pass_laths(laths, on_lath - distance_m * up, up).transmittance;
    };
    // 0.08 m over tan-free angles: 1 degree at 4.584 m, half a degree at 9.167 m.
    CHECK(light(4.58) == Approx(0.0));
    CHECK(light(9.17) == Approx(0.5));
    double before = 0.0;
    for (double distance_m = 4.0; distance_m < 10.0; distance_m += 0.01) {
        const double now = light(distance_m);
        CHECK(now >= before);
        CHECK(now - before < 0.003);
        before = now;
    }
}

TEST_CASE("a lath panel ends where its laths end", "[geometry][property]") {
    scene::Scene scene;
    scene.lath_panels.push_back(level_laths(2.0));  // 2 m north, 3 m to the west, from the origin
    const auto garden = build_garden(scene);
    REQUIRE(garden);
    REQUIRE(garden->pieces.size() == 1);
    // 3 m hold 38 laths of 40 mm: the last one ends with its gap cut off at 3.00 m.
    CHECK(std::get<LathBody>(garden->pieces[0].body).count == 38);
    const auto light = [&](double x, double y) {
        return light_at(*garden, {x, y, 1.0}, {0.0, 0.0, 1.0});
    };
    CHECK(light(-0.001, 1.0) == Approx(0.0));
    CHECK(light(0.001, 1.0) == Approx(1.0));
    CHECK(light(-0.041, 1.0) == Approx(1.0));
    CHECK(light(-0.081, 1.0) == Approx(0.0));
    CHECK(light(-2.999, 1.0) == Approx(0.0));
    CHECK(light(-3.001, 1.0) == Approx(1.0));
    CHECK(light(-0.02, 0.001) == Approx(0.0));
    CHECK(light(-0.02, -0.001) == Approx(1.0));
    CHECK(light(-0.02, 1.999) == Approx(0.0));
    CHECK(light(-0.02, 2.001) == Approx(1.0));
}

TEST_CASE("from afar a panel's outer laths count for their whole pitch", "[geometry][property]") {
    scene::Scene scene;
    scene.lath_panels.push_back(level_laths(12.0));
    const auto garden = build_garden(scene);
    REQUIRE(garden);
    const auto light = [&](double x) { return light_at(*garden, {x, 1.0, 0.0}, {0.0, 0.0, 1.0}); };
    // The first lath lies at x = -0.04 to 0, the last ends at x = -3.
    CHECK(light(0.019) == Approx(0.5));
    CHECK(light(0.021) == Approx(1.0));
    CHECK(light(-3.019) == Approx(0.5));
    CHECK(light(-3.021) == Approx(1.0));
}

TEST_CASE("a tilted panel rises on the far side", "[geometry][property]") {
    scene::Scene scene;
    scene.lath_panels.push_back(level_laths(2.0));
    scene.lath_panels[0].tilt = Angle::degrees(30.0);
    const auto garden = build_garden(scene);
    REQUIRE(garden);
    CHECK(garden->pieces[0].high.z > 3.0);
    CHECK(garden->pieces[0].low.z > 1.9);
    // Looked at square to the panel, a middle lath covers and a middle gap does not.
    const auto& laths = std::get<LathBody>(garden->pieces[0].body);
    const Vec3 lath = laths.corner + 1.0 * laths.along + (10 * 0.08) * laths.across;
    CHECK(light_at(*garden, lath - laths.up, laths.up) == Approx(0.0));
    CHECK(light_at(*garden, lath + 0.04 * laths.across - laths.up, laths.up) == Approx(1.0));
}

TEST_CASE("rays along, across and from within laths give plain numbers", "[geometry][property]") {
    const std::array<Vec3, 7> directions = {Vec3{1, 0, 0},       Vec3{0, 1, 0},  Vec3{0, 0, 1},
                                            Vec3{-1, 0, 0},      Vec3{0, 0, -1}, Vec3{0, -1, 0},
                                            Vec3{0.6, 0.0, -0.8}};
    for (const double tilt : {0.0, 90.0, 33.0}) {
        LathBody laths = laths_of(tilt);
        laths.count = 10;
        for (const Vec3 direction : directions) {
            for (const double x : {-0.8, -0.04, -0.02, 0.0, 0.02, 1.0}) {
                for (const double z : {-20.0, -0.0075, 0.0, 0.0075, 1.0}) {
                    const Passage passage = pass_laths(laths, {x, 1.0, z}, direction);
                    CHECK(passage.transmittance >= 0.0);
                    CHECK(passage.transmittance <= 1.0);
                }
            }
        }
    }
    // Along the laths: in one it is dark, between two it is light.
    const LathBody laths = laths_of(0.0);
    CHECK(pass_laths(laths, {0.0, -1.0, 0.0}, {0, 1, 0}).transmittance == Approx(0.0));
    CHECK(pass_laths(laths, {-0.04, -1.0, 0.0}, {0, 1, 0}).transmittance == Approx(1.0));
    CHECK(pass_laths(laths, {-0.04, 1.0, 0.0}, {1, 0, 0}).transmittance == Approx(0.0));
}
