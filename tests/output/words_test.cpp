#include "sunfleck/output/words.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::output;

TEST_CASE("instants are told by the zone's clock", "[output][property]") {
    const auto london = sun::TimeZone::find("Europe/London").value();
    const UtcSeconds from = london.instants(make_date(2026, 6, 21), 12 * 3600 + 3 * 60).front();
    const UtcSeconds to = from.plus_seconds(5 * 3600.0);
    CHECK(clock_words_at(from, london) == "12:03");
    CHECK(rounded_clock_words_at(from, london) == "12:05");
    CHECK(clock_range_words(from, to, london) == "12:05 to 17:05");
    CHECK(clock_words_at(from, sun::TimeZone::find("Etc/UTC").value()) == "11:03");
}
