#include "exposure/edge_transit.h"

#include "exposure/traced_spot.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace sunfleck;
using namespace sunfleck::test;
using exposure::TransitPart;

namespace {

const Date march = make_date(2026, 3, 20);

// The share beyond the edge, added up every 0.05 s.
double share_s(const exposure::SunArc& arc, Vec3 outward, UtcSeconds from, UtcSeconds to) {
    constexpr double step_s = 0.05;
    double sum_s = 0.0;
    const double seconds = to.seconds_after(from);
    const double count = std::round(seconds / step_s);
    for (double i = 0.5; i < count; i += 1.0) {
        const Vec3 sun = arc.direction(from.plus_seconds(i * seconds / count));
        const double height = std::asin(dot(outward, sun)) / arc.disk_radius().in_radians();
        sum_s += exposure::share_beyond_edge(height) * seconds / count;
    }
    return sum_s;
}

}  // namespace

TEST_CASE("a transit is the sum of its instants", "[exposure][cross]") {
    // Against plain summing of the closed form of the circular segment.
    Dice dice(41);
    int settled = 0;
    int crossed = 0;
    for (int i = 0; i < 300; ++i) {
        const TestDay today(march, place_at(dice.between(-60.0, 60.0), 0.0));
        const UtcSeconds from = today.after_noon(dice.between(-5.0, 4.5));
        const UtcSeconds to = from.plus_seconds(dice.between(20.0, 1800.0));
        // An edge any way through a direction near the sun's way.
        const Vec3 sun = today.arc.direction(from.plus_seconds(dice.between(-200.0, 2000.0)));
        const Vec3 outward = normalised(cross(sun, dice.point(-1.0, 1.0)));
        std::vector<TransitPart> parts;
        if (!exposure::add_edge_transit(today.arc, outward, from, to, parts)) {
            CHECK(parts.empty());
            continue;
        }
        ++settled;
        REQUIRE_FALSE(parts.empty());
        CHECK(parts.front().from == from);
        CHECK(parts.back().to == to);
        double sum_s = 0.0;
        for (std::size_t k = 0; k < parts.size(); ++k) {
            if (k > 0) CHECK(parts[k].from == parts[k - 1].to);
            sum_s += parts[k].outside * parts[k].to.seconds_after(parts[k].from);
        }
        if (parts.size() == 4) ++crossed;
        CAPTURE(i, parts.size());
        CHECK(std::abs(sum_s - share_s(today.arc, outward, from, to)) < 0.05);
    }
    CHECK(settled > 200);
    CHECK(crossed > 80);
}

TEST_CASE("a transit is cut where half of the disk is beyond", "[exposure][property]") {
    const TestDay today(march, place_at(51.5, -0.3));
    const UtcSeconds from = today.after_noon(-0.5);
    const UtcSeconds to = today.after_noon(0.4);
    // The meridian: passed at solar noon, from east to west.
    std::vector<TransitPart> parts;
    REQUIRE(exposure::add_edge_transit(today.arc, {1, 0, 0}, from, to, parts));
    REQUIRE(parts.size() == 4);
    CHECK(std::abs(parts[1].to.seconds_after(today.day.solar_noon)) < 0.1);
    CHECK(parts[0].outside >= 1.0);
    CHECK(parts[1].outside > 0.5);
    CHECK(parts[2].outside < 0.5);
    CHECK(parts[3].outside <= 0.0);
}

TEST_CASE("a sun that turns back over the edge is not settled", "[exposure][property]") {
    // A level edge at noon: the sun climbs to it and sinks again.
    const TestDay today(march, place_at(51.5, -0.3));
    const double high = today.arc.direction(today.day.solar_noon).z;
    const Vec3 outward{0.0, high, std::sqrt(1.0 - high * high)};
    std::vector<TransitPart> parts;
    CHECK_FALSE(exposure::add_edge_transit(today.arc, normalised(outward), today.after_noon(-0.4),
                                           today.after_noon(0.4), parts));
    CHECK(parts.empty());
}
