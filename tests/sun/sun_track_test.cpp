#include "sunfleck/sun/sun_track.h"

#include "base/within.h"
#include "sun/sun_table_row.h"
#include "sunfleck/base/require.h"
#include "sunfleck/sun/refraction.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace sunfleck;
using namespace sunfleck::sun;
using namespace sunfleck::sun::test;
using sunfleck::test::within;

namespace {

Place place(double latitude_deg, double longitude_deg) {
    return {.latitude = Latitude::degrees(latitude_deg),
            .longitude = Longitude::degrees(longitude_deg),
            .elevation_m = 120.0};
}

}  // namespace

TEST_CASE("a track and the exact position part by less than 2e-8 degrees", "[sun][cross]") {
    const std::array places{place(51.5, -0.3), place(-37.8, 145.0), place(78.2, 15.6),
                            place(90.0, 0.0), place(0.0, 180.0)};
    const UtcSeconds from = instant_of("2026-01-01T00:00:00Z");
    const UtcSeconds to = instant_of("2027-01-01T00:00:00Z");
    for (const Place& here : places) {
        const SunTrack track(here, from, to);
        double worst = 0.0;
        double worst_au = 0.0;
        for (double s = 0.0; s <= 31536000.0; s += 100003.0) {
            const UtcSeconds t = from.plus_seconds(s);
            const SolarPosition exact = solar_position(t, here);
            const Vec3 there = direction(exact.azimuth, exact.altitude_true);
            worst =
                std::max(worst, angular_separation(track.true_direction(t), there).in_degrees());
            worst_au = std::max(worst_au, std::fabs(track.distance_au(t) - exact.distance_au));
            CHECK(std::fabs((track.hour_angle(t) - exact.hour_angle).in_degrees()) < 2e-8);
            CHECK(std::fabs((track.altitude_true(t) - exact.altitude_true).in_degrees()) < 2e-8);
        }
        CAPTURE(here.latitude.in_degrees());
        CHECK(worst < 2e-8);
        CHECK(worst_au < 1e-9);
    }
}

TEST_CASE("a track does not depend on where it was begun by more than its error",
          "[sun][property]") {
    const Place here = place(51.5, -0.3);
    const UtcSeconds noon = instant_of("1969-06-21T12:00:00Z");
    const SunTrack one(here, noon.plus_seconds(-43200.0), noon.plus_seconds(43200.0));
    const SunTrack other(here, noon.plus_seconds(-12345.6), noon);
    const SunTrack instant_only(here, noon, noon);
    CHECK(angular_separation(one.true_direction(noon), other.true_direction(noon)).in_degrees() <
          2e-8);
    CHECK(angular_separation(one.true_direction(noon), instant_only.true_direction(noon))
              .in_degrees() < 2e-8);
}

TEST_CASE("the apparent direction of a track is refracted by its air", "[sun][property]") {
    const Place here = place(51.5, -0.3);
    const UtcSeconds dawn = instant_of("2026-06-21T04:00:00Z");
    const Air thin{.pressure_hpa = 700.0, .temperature_c = 25.0};
    const SunTrack track(here, dawn, dawn.plus_seconds(3600.0), thin);
    const Angle altitude = track.altitude_true(dawn);
    CHECK(altitude_of(track.apparent_direction(dawn)).in_degrees() ==
          within((altitude + refraction(altitude, thin)).in_degrees(), 1e-9));
}

TEST_CASE("an instant outside the track is refused", "[sun][property]") {
    const UtcSeconds noon = instant_of("2026-06-21T12:00:00Z");
    const SunTrack track(place(51.5, -0.3), noon, noon.plus_seconds(60.0));
    CHECK_THROWS_AS(track.true_direction(noon.plus_seconds(60.5)), InternalError);
    CHECK_THROWS_AS(track.distance_au(noon.plus_seconds(-0.5)), InternalError);
    CHECK_THROWS_AS(SunTrack(place(0.0, 0.0), noon, noon.plus_seconds(-1.0)), InternalError);
}

// IAU 2015 resolution B3: nominal solar radius 695700 km, so 959.2" at 1 au: 0.533 degrees across.
TEST_CASE("the sun's disk is 0.533 degrees across, more when near", "[sun][published]") {
    CHECK(sun_disk_radius(1.0).in_degrees() * 2.0 == within(0.533, 0.0005));
    CHECK(sun_disk_radius(0.9833) > sun_disk_radius(1.0167));
}
