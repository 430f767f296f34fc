#include "sunfleck/sun/refraction.h"

#include "base/within.h"
#include "sun/sun_table_row.h"
#include "sunfleck/sun/solar_position.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace sunfleck;
using namespace sunfleck::sun;
using namespace sunfleck::sun::test;
using sunfleck::test::within;

// refraction_standard_atmosphere.csv: numerical integration, PAL palRefro.
TEST_CASE("refraction agrees with ray-traced air within 0.01 degrees", "[sun][cross]") {
    const auto rows = read_table("refraction_standard_atmosphere.csv");
    REQUIRE(rows.size() == 72);
    for (const Row& row : rows) {
        CAPTURE(row.text("pressure_hpa"), row.text("elevation_true_deg"));
        const Air air{.pressure_hpa = row.number("pressure_hpa"),
                      .temperature_c = row.number("temperature_c")};
        const Angle lift = refraction(Angle::degrees(row.number("elevation_true_deg")), air);
        CHECK(std::fabs(lift.in_degrees() - row.number("refraction_deg")) <= 0.01);
    }
}

TEST_CASE("refraction is Saemundsson's and NOAA's as the position table has them", "[sun][cross]") {
    int compared = 0;
    for (const Row& row : read_table("sun_position.csv")) {
        if (!row.has("elevation_refr_saemundsson_1010hpa_10c_deg")) continue;
        CAPTURE(row.text("place"), row.text("utc"));
        const Angle altitude = Angle::degrees(row.number("elevation_true_deg"));
        CHECK((altitude + refraction(altitude)).in_degrees() ==
              within(row.number("elevation_refr_saemundsson_1010hpa_10c_deg"), 2e-5));
        CHECK((altitude + noaa_refraction(altitude)).in_degrees() ==
              within(row.number("elevation_refr_noaa_deg"), 2e-5));
        ++compared;
    }
    CHECK(compared > 300);
}

TEST_CASE("refraction falls with altitude and never folds the sky over", "[sun][property]") {
    for (const Air air : {Air{}, Air{.pressure_hpa = 1085.0, .temperature_c = -60.0},
                          Air{.pressure_hpa = 300.0, .temperature_c = 50.0}}) {
        double last_lift = refraction(Angle::degrees(-90.0), air).in_degrees();
        double last_apparent = -90.0 + last_lift;
        for (int i = 1; i <= 180000; ++i) {
            const double altitude = -90.0 + i * 0.001;
            const double lift = refraction(Angle::degrees(altitude), air).in_degrees();
            const double apparent = altitude + lift;
            if (lift > last_lift || apparent <= last_apparent || last_lift - lift > 0.001) {
                CAPTURE(altitude, lift, last_lift);
                FAIL_CHECK("not monotone and continuous");
            }
            last_lift = lift;
            last_apparent = apparent;
        }
        CHECK_FALSE(last_lift > 0.0);
    }
}

TEST_CASE("an apparent direction is lifted in its own vertical plane", "[sun][property]") {
    for (const double altitude : {-30.0, -0.8333, 0.0, 5.0, 45.0, 89.9}) {
        CAPTURE(altitude);
        const Angle azimuth = Angle::degrees(211.0);
        const Vec3 seen = apparent_direction(direction(azimuth, Angle::degrees(altitude)));
        CHECK(length(seen) == within(1.0, 1e-14));
        CHECK(azimuth_of(seen).in_degrees() == within(211.0, 1e-9));
        CHECK(altitude_of(seen).in_degrees() ==
              within(altitude + refraction(Angle::degrees(altitude)).in_degrees(), 1e-9));
    }
    CHECK(apparent_direction(Vec3{0.0, 0.0, 1.0}) == Vec3{0.0, 0.0, 1.0});
}
