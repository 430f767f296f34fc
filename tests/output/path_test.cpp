#include "sunfleck/output/path.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace sunfleck;
using namespace sunfleck::output;

namespace {

/// A point of a cubic curve.
SheetPoint on_curve(SheetPoint a, const std::array<SheetPoint, 3>& c, double t) {
    const double u = 1.0 - t;
    return u * u * u * a + 3.0 * u * u * t * c[0] + 3.0 * u * t * t * c[1] + t * t * t * c[2];
}

}  // namespace

TEST_CASE("angles of a circle run clockwise from the top", "[output][property]") {
    const SheetPoint centre{100.0, 50.0};
    CHECK(distance(on_circle(centre, 10.0, Angle::degrees(0)), {100.0, 40.0}) < 1e-9);
    CHECK(distance(on_circle(centre, 10.0, Angle::degrees(90)), {110.0, 50.0}) < 1e-9);
    CHECK(distance(on_circle(centre, 10.0, Angle::degrees(-90)), {90.0, 50.0}) < 1e-9);
}

TEST_CASE("an arc keeps its radius to a thousandth", "[output][property]") {
    const SheetPoint centre{3.0, -2.0};
    for (const double to_deg : {-330.0, -75.0, 5.0, 90.0, 200.0, 360.0}) {
        CAPTURE(to_deg);
        const Path path =
            Path().arc(centre, 100.0, Angle::degrees(10.0), Angle::degrees(10.0 + to_deg));
        SheetPoint last;
        for (const auto& [step, points] : path.commands()) {
            if (step == Path::Step::curve) {
                for (double t = 0.0; t <= 1.0; t += 0.125) {
                    CHECK(distance(centre, on_curve(last, points, t)) ==
                          Approx(100.0).epsilon(1e-3));
                }
            }
            last = points[step == Path::Step::curve ? 2 : 0];
        }
        CHECK(distance(last, on_circle(centre, 100.0, Angle::degrees(10.0 + to_deg))) < 1e-9);
    }
}

TEST_CASE("a stretch of a ring is cut square to the band", "[output][property]") {
    const Path path = ring_stretch({0, 0}, 50.0, 40.0, Angle::degrees(-30), Angle::degrees(20));
    const auto& commands = path.commands();
    REQUIRE(commands.size() >= 4);
    CHECK(distance(commands.front().points[0], on_circle({0, 0}, 50.0, Angle::degrees(-30))) <
          1e-9);
    CHECK(distance(commands[commands.size() - 2].points[2],
                   on_circle({0, 0}, 40.0, Angle::degrees(-30))) < 1e-9);
    CHECK(commands.back().step == Path::Step::close);
}

TEST_CASE("boxes share what both cover", "[output][property]") {
    const SheetBox a = box_at({0, 0}, 10, 10);
    CHECK(shared_area(a, box_at({5, 5}, 10, 10)) == Approx(25.0));
    CHECK_FALSE(shared_area(a, box_at({10, 0}, 10, 10)) > 0.0);
    CHECK(shared_area(a, box_at({-5, -5}, 30, 30)) == Approx(100.0));
}
