#include "window/regions.h"

#include "base/within.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using sunfleck::test::within;
using window::Regions;
using window::regions_of;

TEST_CASE("the four parts fill the window and do not overlap", "[window][property]") {
    struct Size {
        double width;
        double height;
    };
    for (const Size& size : {Size{1280, 800}, Size{1024, 700}, Size{960, 600}, Size{1920, 1200},
                             Size{700, 400}, Size{3840, 2160}}) {
        for (const bool is_wide : {false, true}) {
            const Regions regions = regions_of(size.width, size.height, is_wide);
            CAPTURE(size.width, size.height, is_wide);
            const double width = regions.sky.width();
            CHECK(width >= window::least_width);
            CHECK(regions.sky.high.y == within(regions.ground.low.y, 0.0));
            CHECK(regions.ground.high.y == within(regions.path.low.y, 0.0));
            CHECK(regions.ground.high.x == within(regions.page.low.x, 0.0));
            CHECK(regions.page.high.x == within(width, 0.0));
            CHECK(regions.page.high.y == within(regions.path.low.y, 0.0));
            const double middle = regions.page.height();
            CHECK(width * (regions.sky.height() + regions.path.height()) +
                      middle * (regions.ground.width() + regions.page.width()) ==
                  Approx(width * regions.path.high.y));
            if (!is_wide) CHECK(regions.ground.width() >= 0.5 * width);
        }
    }
}

TEST_CASE("parts of the sky stand side by side", "[window][property]") {
    for (const double width : {960.0, 1024.0, 1280.0, 1920.0}) {
        const auto parts = window::sky_parts(regions_of(width, 800.0, false));
        CAPTURE(width);
        CHECK(parts.name.high.x < parts.arch.low.x);
        CHECK(parts.arch.high.x < parts.strip.low.x);
        CHECK(parts.strip.high.x < parts.clock.low.x);
        CHECK(parts.clock.high.x <= width);
        CHECK(parts.arch.width() > 120.0);
        CHECK(parts.strip.width() > 160.0);
    }
}
