#include "base/within.h"
#include "sunfleck/exposure/spot_sun.h"

#include <catch2/catch.hpp>

#include <vector>

using namespace sunfleck;
using namespace sunfleck::exposure;
using sunfleck::test::within;

namespace {

const UtcSeconds dawn = UtcSeconds::since_1970(1'782'000'000.0);

UtcSeconds after_min(double minutes) {
    return dawn.plus_seconds(60.0 * minutes);
}

SunSlice slice(double from_min, double to_min, const DiskShares& shares) {
    SunSlice made;
    made.from = after_min(from_min);
    made.to = after_min(to_min);
    made.shares = shares;
    return made;
}

SunSpan span(double from_min, double to_min, SunState state) {
    return {.state = state, .from = after_min(from_min), .to = after_min(to_min)};
}

constexpr DiskShares open{.full = 1.0, .filtered = 0.0, .effective = 1.0};
constexpr DiskShares thick{.full = 0.0, .filtered = 1.0, .effective = 0.3};
constexpr DiskShares thin{.full = 0.0, .filtered = 1.0, .effective = 0.6};
constexpr DiskShares dark{};

/// An hour of sun, a net whose second half is thinner, an hour of shade, sun again; cut at the
/// clock's hours and at the hot hours' ends.
DaySun invented_day() {
    DaySun sun;
    sun.slices = {slice(0, 30, open),   slice(30, 60, open),   slice(60, 90, thick),
                  slice(90, 120, thin), slice(120, 180, dark), slice(180, 210, open),
                  slice(210, 240, open)};
    sun.spans = {span(0, 60, SunState::full), span(60, 120, SunState::filtered),
                 span(120, 180, SunState::shade), span(180, 240, SunState::full)};
    return sun;
}

}  // namespace

TEST_CASE("a day is the sum of its slices, by the hour and in the hot hours",
          "[exposure][property]") {
    const std::vector<sun::CivilHour> hours{{5, after_min(0), after_min(60)},
                                            {6, after_min(60), after_min(120)},
                                            {7, after_min(120), after_min(180)},
                                            {8, after_min(180), after_min(240)},
                                            {9, after_min(240), after_min(300)}};
    const HotHours hot{after_min(30), after_min(210)};
    const DayExposure day = day_exposure(make_date(2026, 6, 21), invented_day(), hours, hot);
    CHECK(day.total.sun_up_min == within(240.0, 1e-9));
    CHECK(day.total.full_min == within(120.0, 1e-9));
    CHECK(day.total.filtered_min == within(60.0, 1e-9));
    CHECK(day.total.shade_min == within(60.0, 1e-9));
    CHECK(day.total.effective_min == within(120.0 + 9.0 + 18.0, 1e-9));
    CHECK(day.total.hot_full_min == within(60.0, 1e-9));
    CHECK(day.total.hot_effective_min == within(60.0 + 9.0 + 18.0, 1e-9));
    REQUIRE(day.hours.size() == 4);  // the one without sun up is not listed
    CHECK(day.hours[0].hour == 5);
    CHECK(day.hours[0].minutes.hot_full_min == within(30.0, 1e-9));
    CHECK(day.hours[1].minutes.effective_min == within(27.0, 1e-9));
    CHECK(day.hours[2].minutes.shade_min == within(60.0, 1e-9));
    CHECK(day.hours[3].minutes.full_min == within(60.0, 1e-9));
}

TEST_CASE("first and last sun are the ends of the full spans", "[exposure][property]") {
    const DayExposure day = day_exposure(make_date(2026, 6, 21), invented_day(), {}, {});
    CHECK(day.first_sun == after_min(0));
    CHECK(day.last_sun == after_min(240));
    DaySun shaded = invented_day();
    shaded.spans = {span(0, 240, SunState::shade)};
    const DayExposure none = day_exposure(make_date(2026, 6, 21), shaded, {}, {});
    CHECK_FALSE(none.first_sun);
    CHECK_FALSE(none.last_sun);
}

TEST_CASE("a filtered span lets through the mean of its light", "[exposure][property]") {
    const DayExposure day = day_exposure(make_date(2026, 6, 21), invented_day(), {}, {});
    REQUIRE(day.spans.size() == 4);
    CHECK(day.spans[0].transmittance == within(1.0, 1e-12));
    CHECK(day.spans[1].transmittance == within(0.5 * (0.3 + 0.6), 1e-12));
    CHECK(day.spans[2].transmittance == within(0.0, 1e-12));
}
