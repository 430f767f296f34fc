#include "base/within.h"
#include "sunfleck/output/year_sheet.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::output;
using exposure::SunState;
using sunfleck::test::within;

namespace {

const sun::Place london{Latitude::degrees(51.5), Longitude::degrees(-0.3), 20.0};
const sun::Place tromso{Latitude::degrees(69.65), Longitude::degrees(18.96), 0.0};

sun::TimeZone zone(const char* name) {
    return sun::TimeZone::find(name).value();
}

exposure::DayExposure day_with(Date date, const sun::TimeZone& clock, int from_s, int to_s) {
    exposure::DayExposure day;
    day.date = date;
    const UtcSeconds midnight = clock.instants(date, 0).front();
    day.spans.push_back(
        {SunState::full, midnight.plus_seconds(from_s), midnight.plus_seconds(to_s), 1.0});
    return day;
}

}  // namespace

TEST_CASE("a column shows a run by the day's own clock", "[output][property]") {
    const auto clock = zone("Europe/London");
    const std::vector<exposure::DayExposure> days{
        day_with(make_date(2026, 3, 28), clock, 8 * 3600, 10 * 3600),
        day_with(make_date(2026, 3, 30), clock, 8 * 3600, 10 * 3600)};
    const auto columns = year_columns(days, london, clock);
    REQUIRE(columns.size() == 2);
    CHECK(columns[0].full == std::vector<ClockRun>{{8.0, 10.0}});
    CHECK(columns[1].full == std::vector<ClockRun>{{8.0, 10.0}});
    CHECK(columns[0].days == 2);
    // Summer time begins on 29 March 2026: noon and hot hours step by an hour.
    CHECK(columns[1].noon_h - columns[0].noon_h == within(1.0, 0.05));
    CHECK(columns[1].utc_offset_s - columns[0].utc_offset_s == 3600);
    CHECK(columns[0].hot_from_h == Approx(columns[0].noon_h - 1.0));
    CHECK(columns[0].hot_to_h == Approx(columns[0].noon_h + 4.0));
}

TEST_CASE("sun after midnight stands in the next day's column", "[output][property]") {
    const auto clock = zone("Europe/Oslo");
    const std::vector<exposure::DayExposure> days{
        day_with(make_date(2026, 6, 20), clock, 20 * 3600, 24 * 3600 + 1800),
        day_with(make_date(2026, 6, 21), clock, 20 * 3600, 22 * 3600)};
    const auto columns = year_columns(days, tromso, clock);
    CHECK(columns[0].full == std::vector<ClockRun>{{20.0, 24.0}});
    CHECK(columns[1].full == std::vector<ClockRun>{{0.0, 0.5}, {20.0, 22.0}});
    CHECK(shown_hours(columns) == ClockRun{0.0, 24.0});
}

TEST_CASE("the sheet shows an hour before sunrise and after sunset", "[output][property]") {
    YearColumn column;
    column.up = {{4.7, 21.3}};
    CHECK(shown_hours(std::vector<YearColumn>{column}) == ClockRun{3.0, 23.0});
    CHECK(shown_hours(std::vector<YearColumn>{YearColumn{}}) == ClockRun{11.0, 13.0});
}
