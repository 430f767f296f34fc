#include "sunfleck/scene/scene.h"

#include <catch2/catch.hpp>

namespace sunfleck::scene {
namespace {

YearSpan span(const char* from, const char* to) {
    return {*parse_month_day(from), *parse_month_day(to)};
}

}  // namespace

TEST_CASE("A stretch of the year holds both its ends", "[scene][property]") {
    const YearSpan net = span("05-20", "09-05");
    CHECK_FALSE(net.contains(make_date(2026, 5, 19)));
    CHECK(net.contains(make_date(2026, 5, 20)));
    CHECK(net.contains(make_date(2026, 9, 5)));
    CHECK_FALSE(net.contains(make_date(2026, 9, 6)));
}

TEST_CASE("A stretch may pass new year", "[scene][property]") {
    const YearSpan winter = span("11-10", "02-20");
    CHECK(winter.contains(make_date(2026, 11, 10)));
    CHECK(winter.contains(make_date(2026, 12, 31)));
    CHECK(winter.contains(make_date(2026, 1, 1)));
    CHECK(winter.contains(make_date(2026, 2, 20)));
    CHECK_FALSE(winter.contains(make_date(2026, 2, 21)));
    CHECK_FALSE(winter.contains(make_date(2026, 11, 9)));
}

TEST_CASE("29 February counts as the 28th in common years", "[scene][property]") {
    const YearSpan to_leap_day = span("02-01", "02-29");
    CHECK(to_leap_day.contains(make_date(2026, 2, 28)));
    CHECK_FALSE(to_leap_day.contains(make_date(2026, 3, 1)));
    CHECK(to_leap_day.contains(make_date(2028, 2, 29)));
    CHECK(span("02-29", "02-29").contains(make_date(2026, 2, 28)));
    CHECK_FALSE(span("02-29", "02-29").contains(make_date(2028, 2, 28)));
}

TEST_CASE("The year asked for goes before the scene's, and that before the default",
          "[scene][property]") {
    Scene scene;
    CHECK(year_for(scene, std::nullopt) == 2026);
    scene.site.year = 2031;
    CHECK(year_for(scene, std::nullopt) == 2031);
    CHECK(year_for(scene, 1999) == 1999);
}

}  // namespace sunfleck::scene
