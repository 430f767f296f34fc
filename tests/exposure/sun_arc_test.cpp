#include "sunfleck/exposure/sun_arc.h"

#include "exposure/traced_spot.h"
#include "sunfleck/sun/civil_time.h"
#include "sunfleck/sun/refraction.h"
#include "sunfleck/sun/solar_position.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::test;

TEST_CASE("the arc keeps to the exact sun", "[exposure][cross]") {
    double worst_deg = 0.0;
    for (const auto& [latitude_deg, longitude_deg] :
         {std::pair{51.5, -0.3}, {-37.8, 145.0}, {1.35, 103.8}, {69.6, 18.9}}) {
        const sun::Place place = place_at(latitude_deg, longitude_deg);
        for (const Date date : {make_date(2026, 6, 21), make_date(2026, 3, 20)}) {
            const TestDay today(date, place);
            for (double s = 0.0; s <= today.arc.to().seconds_after(today.arc.from()); s += 97.0) {
                const UtcSeconds instant = today.arc.from().plus_seconds(s);
                const auto position = sun::solar_position(instant, place);
                const Vec3 exact =
                    sun::direction(position.azimuth, position.altitude_true +
                                                         sun::refraction(position.altitude_true));
                const double apart = length(today.arc.direction(instant) - exact);
                worst_deg = std::max(worst_deg, Angle::radians(apart).in_degrees());
            }
        }
    }
    CHECK(worst_deg < 0.001);
}

TEST_CASE("a beam holds the disk all along its stretch", "[exposure][property]") {
    const TestDay today(make_date(2026, 9, 23), place_at(51.5, -0.3));
    Dice dice(5);
    for (int i = 0; i < 300; ++i) {
        const double length_s = dice.between(1.0, 1800.0);
        const double whole_s = today.arc.to().seconds_after(today.arc.from());
        const UtcSeconds from =
            today.arc.from().plus_seconds(dice.between(0.0, whole_s - length_s));
        const rays::Beam beam = today.arc.beam({}, from, from.plus_seconds(length_s));
        for (int k = 0; k <= 20; ++k) {
            const Vec3 d = today.arc.direction(from.plus_seconds(length_s * k / 20.0));
            const double off = std::asin(length(cross(d, beam.axis)));
            CHECK(off + today.arc.disk_radius().in_radians() <= beam.half_angle.in_radians());
        }
        // And is not much wider than it must be: the sun moves 15 degrees an hour at most.
        CHECK(beam.half_angle.in_degrees() < 0.28 + 0.5 * 1.03 * length_s / 240.0);
    }
}

TEST_CASE("the disk grows as the Earth nears the sun", "[exposure][published]") {
    // 0.533 degrees at 1 au (the project's definition); perihelion 0.9833 au on 3 January 2026,
    // aphelion 1.0166 au on 6 July 2026 (published almanac values).
    const sun::Place place = place_at(0.0, 0.0);
    const TestDay january(make_date(2026, 1, 3), place);
    const TestDay july(make_date(2026, 7, 6), place);
    CHECK(january.arc.disk_radius().in_degrees() == Approx(0.2665 / 0.9833).epsilon(0.0002));
    CHECK(july.arc.disk_radius().in_degrees() == Approx(0.2665 / 1.0166).epsilon(0.0002));
}

TEST_CASE("hot hours are told by the clock of the date", "[exposure][published]") {
    // design example: 51.5 N 0.3 W, 21 June: 12:05 to 17:05 to 5 min.
    const auto zone = sun::TimeZone::find("Europe/London");
    REQUIRE(zone);
    const sun::SunDay day = sun::sun_day(make_date(2026, 6, 21), place_at(51.5, -0.3), *zone);
    const exposure::HotHours hot = exposure::hot_hours(day);
    CHECK(std::abs(zone->clock(hot.from).seconds_of_day - (12 * 3600 + 5 * 60)) <= 150);
    CHECK(std::abs(zone->clock(hot.to).seconds_of_day - (17 * 3600 + 5 * 60)) <= 150);
}
