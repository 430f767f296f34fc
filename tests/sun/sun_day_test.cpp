#include "sunfleck/sun/sun_day.h"

#include "sun/sun_table_row.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>

using namespace sunfleck;
using namespace sunfleck::sun;
using namespace sunfleck::sun::test;

namespace {

const std::map<std::string, DayState> state_names{{"normal", DayState::normal},
                                                  {"polar_day", DayState::polar_day},
                                                  {"polar_night", DayState::polar_night},
                                                  {"rise_only", DayState::rise_only},
                                                  {"set_only", DayState::set_only}};

SunDay day_of(const Row& row) {
    return sun_day(parse_date(row.text("local_date")).value(), place_of(row));
}

bool is_grazing(const Row& row) {
    return row.text("grazing") == "1";
}

/// Seconds between a crossing and the table's; both must exist or be missing together.
void check_crossing(const std::optional<UtcSeconds>& found, const Row& row,
                    const std::string& column, double tolerance_s) {
    CAPTURE(column);
    CHECK(found.has_value() == row.has(column));
    if (!found || !row.has(column)) return;
    CHECK(std::fabs(found->seconds_after(instant_of(row.text(column)))) <= tolerance_s);
}

}  // namespace

// sun_rise_transit_set.csv: ERFA 2.0.0, bisection, printed to 0.1 s. The sun moves 0.0042 degrees
// a second in hour angle, so 0.0003 degrees of position is 0.15 s where it sinks at 30 degrees to
// the horizon (latitude 60) and 1 s where it sinks at 4; grazing rows may be 10 minutes off.
TEST_CASE("rise, noon and set of every row of the table are met", "[sun][cross]") {
    const auto rows = read_table("sun_rise_transit_set.csv");
    REQUIRE(rows.size() == 168);
    for (const Row& row : rows) {
        CAPTURE(row.text("place"), row.text("local_date"), row.text("grazing"));
        const SunDay day = day_of(row);
        const bool is_far_north = std::fabs(row.number("lat_deg")) > 61.0;
        const double tolerance_s = is_grazing(row) ? 600.0 : is_far_north ? 1.0 : 0.25;
        CHECK(day.state == state_names.at(row.text("state")));
        check_crossing(day.sunrise, row, "sunrise_utc", tolerance_s);
        check_crossing(day.sunset, row, "sunset_utc", tolerance_s);
        check_crossing(day.solar_noon, row, "transit_utc", 0.2);
        CHECK(day.noon_altitude.in_degrees() ==
              Approx(row.number("transit_elevation_true_deg")).margin(3e-4));
        if (!row.has("day_length_h")) continue;
        CHECK(day.day_length_h() ==
              Approx(row.number("day_length_h")).margin(2.0 * tolerance_s / 3600.0));
    }
}
