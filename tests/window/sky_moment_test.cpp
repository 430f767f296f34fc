#include "window/sky_moment.h"

#include "base/within.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using sunfleck::test::within;
using window::SkyMoment;

namespace {

sun::TimeZone zone_of(const char* name) {
    auto zone = sun::TimeZone::find(name);
    REQUIRE(zone);
    return *zone;
}

}  // namespace

TEST_CASE("moments step through midnight and months", "[window][property]") {
    const SkyMoment evening{make_date(2026, 12, 31), 1430};
    CHECK(window::later(evening, 15) == SkyMoment{make_date(2027, 1, 1), 5});
    CHECK(window::later(SkyMoment{make_date(2026, 3, 1), 5}, -15) ==
          SkyMoment{make_date(2026, 2, 28), 1430});
    CHECK(window::days_later(evening, 1) == SkyMoment{make_date(2027, 1, 1), 1430});
    CHECK(window::months_later(SkyMoment{make_date(2026, 1, 31), 60}, 1) ==
          SkyMoment{make_date(2026, 2, 28), 60});
    CHECK(window::months_later(SkyMoment{make_date(2026, 1, 31), 60}, -2) ==
          SkyMoment{make_date(2025, 11, 30), 60});
    CHECK(window::months_later(SkyMoment{make_date(2026, 7, 21), 60}, 12) ==
          SkyMoment{make_date(2027, 7, 21), 60});
}

TEST_CASE("a skipped hour is the instant as much after the step", "[window][property]") {
    // In 2026 London's clocks go from 01:00 to 02:00 on 29 March (IANA time zone database).
    const auto london = zone_of("Europe/London");
    const auto before = window::instant_of({make_date(2026, 3, 29), 59}, london);
    const auto skipped = window::instant_of({make_date(2026, 3, 29), 90}, london);
    CHECK(skipped.seconds_after(before) == within(31.0 * 60.0, 1e-6));
    // And back on 25 October: 01:30 comes twice, the first is meant.
    const auto doubled = window::instant_of({make_date(2026, 10, 25), 90}, london);
    const auto after = window::instant_of({make_date(2026, 10, 25), 180}, london);
    CHECK(after.seconds_after(doubled) == within(2.5 * 3600.0, 1e-6));
}

TEST_CASE("a date that a zone skipped has instants all the same", "[window][property]") {
    // Samoa went from 29 to 31 December 2011 (IANA time zone database).
    const auto apia = zone_of("Pacific/Apia");
    const auto before = window::instant_of({make_date(2011, 12, 29), 720}, apia);
    const auto skipped = window::instant_of({make_date(2011, 12, 30), 720}, apia);
    CHECK(skipped.seconds_after(before) == within(86400.0, 1e-6));
}
