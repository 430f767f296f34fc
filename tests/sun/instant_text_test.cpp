#include "sunfleck/sun/instant_text.h"

#include <catch2/catch.hpp>

#include <random>

using namespace sunfleck;
using namespace sunfleck::sun;

namespace {

TimeZone london() {
    return TimeZone::find("Europe/London").value();
}

std::string read(std::string_view text, BareTime bare = BareTime::clock_of_zone,
                 std::optional<Date> day = std::nullopt) {
    const auto result = parse_instant(text, london(), bare, day);
    return result ? utc_text(result->instant) : result.error().at(0).code;
}

}  // namespace

// The profiles of ISO 8601 that RFC 3339 keeps, section 5.8, and a space for the T.
TEST_CASE("an instant is read by the zone's clock, in UTC, or with an offset", "[sun][published]") {
    CHECK(read("2026-06-21T13:30") == "2026-06-21T12:30:00.000Z");
    CHECK(read("2026-06-21 13:30:05.25") == "2026-06-21T12:30:05.250Z");
    CHECK(read("2026-06-21T13:30", BareTime::utc) == "2026-06-21T13:30:00.000Z");
    CHECK(read("2026-06-21T12:30Z") == "2026-06-21T12:30:00.000Z");
    CHECK(read("1985-04-12T23:20:50.52Z") == "1985-04-12T23:20:50.520Z");
    CHECK(read("1996-12-19T16:39:57-08:00") == "1996-12-20T00:39:57.000Z");
    CHECK(read("2026-06-21T13:30+0545") == "2026-06-21T07:45:00.000Z");
    CHECK(read("2026-06-21T13:30-03") == "2026-06-21T16:30:00.000Z");
    CHECK(read("13:30", BareTime::clock_of_zone, make_date(2026, 1, 5)) ==
          "2026-01-05T13:30:00.000Z");
}

TEST_CASE("what is no instant is refused with its reason", "[sun][property]") {
    for (const char* text : {"",
                             "noon",
                             "13:30",
                             "2026-06-21",
                             "2026-06-21T",
                             "2026-06-21T24:00",
                             "2026-06-21T13:60",
                             "2026-06-21T13:30:60",
                             "2026-06-21T13:30:05.",
                             "2026-06-21T13:30x",
                             "2026-02-30T10:00",
                             "2026-06-21T1:30",
                             "2026-06-21T13:30+",
                             "2026-06-21T13:30+25:00",
                             "2026-06-21T13:30 Z",
                             "21.06.2026 13:30",
                             "2026-06-21T13:30:05.0123456789",
                             "-",
                             "NaN",
                             "1e9"}) {
        CAPTURE(text);
        CHECK(read(text) == "bad_instant");
    }
    CHECK(read("1899-12-31T23:59Z") == "year_out_of_range");
    CHECK(read("2101-01-01T00:00Z") == "year_out_of_range");
    CHECK(read("2026-03-29T01:30") == "skipped_hour");
}

TEST_CASE("a doubled time is its first instant and says so", "[sun][property]") {
    const auto doubled = parse_instant("2026-10-25T01:30", london());
    REQUIRE(doubled);
    CHECK(doubled->is_doubled);
    CHECK(utc_text(doubled->instant) == "2026-10-25T00:30:00.000Z");
    CHECK_FALSE(parse_instant("2026-10-25T01:30+00:00", london())->is_doubled);
}

TEST_CASE("random bytes never make an instant by accident or harm", "[sun][property]") {
    std::mt19937_64 bits(20260621);
    constexpr std::string_view letters = "0123456789-T:Z+. \xff\0z";
    int read_count = 0;
    for (int i = 0; i < 20000; ++i) {
        std::string text = "2026-06-21T13:30:05.5+01:00";
        for (int k = 0; k < 3; ++k) text[bits() % text.size()] = letters[bits() % letters.size()];
        text.resize(bits() % 3 == 0 ? bits() % (text.size() + 1) : text.size());
        const auto result = parse_instant(text, london());
        if (result) ++read_count;
        const bool is_sane = result ? utc_text(result->instant).size() == 24
                                    : result.error().size() == 1 && !result.error()[0].mend.empty();
        if (!is_sane) {
            CAPTURE(text);
            FAIL_CHECK("neither an instant nor one clear problem");
        }
    }
    CHECK(read_count > 100);
}
