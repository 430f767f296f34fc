#include "sunfleck/base/date.h"

#include <catch2/catch.hpp>

using namespace sunfleck;

TEST_CASE("a date is read only when it is a real day", "[base][property]") {
    CHECK(parse_date("2026-06-21") == make_date(2026, 6, 21));
    CHECK(parse_date("2024-02-29") == make_date(2024, 2, 29));
    for (const char* text :
         {"2026-02-29", "2026-13-01", "2026-6-21", "21.06.2026", "", "2026-06-2x"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_date(text));
    }
}

TEST_CASE("29 February counts as 28 February in common years", "[base][property]") {
    const auto day = parse_month_day("02-29");
    REQUIRE(day);
    CHECK(in_year(*day, 2026) == make_date(2026, 2, 28));
    CHECK(in_year(*day, 2028) == make_date(2028, 2, 29));
}

TEST_CASE("days are counted across new year and leap days", "[base][property]") {
    CHECK(add_days(make_date(2026, 12, 31), 1) == make_date(2027, 1, 1));
    CHECK(add_days(make_date(2024, 3, 1), -1) == make_date(2024, 2, 29));
    CHECK(days_between(make_date(2026, 12, 1), make_date(2027, 2, 28)) == 89);
    CHECK(day_of_year(make_date(2024, 12, 31)) == 366);
    CHECK(days_since_1970(make_date(1970, 1, 2)) == 1);
    CHECK(iso_date(make_date(2026, 3, 4)) == "2026-03-04");
}
