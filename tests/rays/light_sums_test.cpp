#include "sunfleck/rays/light_sums.h"

#include "rays/light_cases.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::test;

namespace {

// Three days in June; spans written by hand, in ticks of 1/32 minute.
struct Written {
    rays::SunTable sun{rays::dates_from_to(make_date(2026, 6, 20), make_date(2026, 6, 22)),
                       test_place(50.0)};
    rays::LightSpans light{1, 3};

    Written() {
        // Day 0: an hour full, half an hour at 0.5, then full for a quarter. Day 1: shade all day.
        // Day 2: ten minutes at 0.25.
        const std::vector<rays::LightSpan> spans{
            {.from_tick = 3200, .to_tick = 5120, .transmittance = 1.0F},
            {.from_tick = 5120, .to_tick = 6080, .transmittance = 0.5F},
            {.from_tick = 9600, .to_tick = 10080, .transmittance = 1.0F},
            {.from_tick = 6400, .to_tick = 6720, .transmittance = 0.25F}};
        const std::vector<std::uint32_t> first{0, 3, 3, 4};
        light.set_spot(0, first, spans);
    }
    [[nodiscard]] UtcSeconds minute(std::size_t day, double at) const {
        return sun.days()[day].start.plus_seconds(60.0 * at);
    }
};

}  // namespace

TEST_CASE("A day's minutes add up to the time the sun is up", "[rays][property]") {
    const Written written;
    const rays::LightMinutes day = rays::day_minutes(written.sun, written.light, 0, 0);
    CHECK(day.full_min == Approx(75.0));
    CHECK(day.filtered_min == Approx(30.0));
    CHECK(day.effective_min == Approx(90.0));
    CHECK(day.full_min + day.filtered_min + day.shade_min == Approx(day.sun_up_min));
    const rays::SunTableDay& of_day = written.sun.days()[0];
    CHECK(day.sun_up_min ==
          Approx(of_day.up_to.seconds_after(of_day.up_from) / 60.0).margin(1.0 / 32.0));
}

TEST_CASE("A window takes the parts of the spans in it", "[rays][property]") {
    const Written written;
    const auto part = rays::minutes_between(written.sun, written.light, 0, 0,
                                            written.minute(0, 150.0), written.minute(0, 175.0));
    CHECK(part.full_min == Approx(10.0));
    CHECK(part.filtered_min == Approx(15.0));
    CHECK(part.effective_min == Approx(17.5));
    CHECK(part.shade_min == Approx(0.0).margin(1e-9));
    const auto night = rays::minutes_between(written.sun, written.light, 0, 0,
                                             written.minute(0, -300.0), written.minute(0, -10.0));
    CHECK(night == rays::LightMinutes{});
    const std::vector<rays::DayWindow> windows{
        {.day = 0, .from = written.minute(0, 150.0), .to = written.minute(0, 175.0)},
        {.day = 2, .from = written.minute(2, 205.0), .to = written.minute(2, 400.0)}};
    const auto sums = rays::window_sums(written.sun, written.light, windows);
    REQUIRE(sums.size() == 1);
    CHECK(sums[0].effective_min == Approx(17.5 + 0.25 * 5.0));
}

TEST_CASE("Spells join what follows without a gap", "[rays][property]") {
    const Written written;
    const auto full = rays::spells(written.sun, written.light, 0, 0, rays::SpellKind::full);
    REQUIRE(full.size() == 2);
    CHECK(full[0].from == written.minute(0, 100.0));
    CHECK(full[0].to == written.minute(0, 160.0));
    const auto any = rays::spells(written.sun, written.light, 0, 0, rays::SpellKind::any_light);
    REQUIRE(any.size() == 2);
    CHECK(any[0].to == written.minute(0, 190.0));
    CHECK(any[0].transmittance == Approx(75.0 / 90.0));
    CHECK(rays::spells(written.sun, written.light, 0, 1, rays::SpellKind::any_light).empty());
}

TEST_CASE("The worst day is the earliest of equals", "[rays][property]") {
    const Written written;
    const std::vector<std::size_t> all{0, 1, 2};
    const std::vector<std::size_t> some{2, 0};
    CHECK(rays::worst_day(written.sun, written.light, 0, all) == 1U);
    CHECK(rays::worst_day(written.sun, written.light, 0, some) == 2U);
    CHECK_FALSE(rays::worst_day(written.sun, written.light, 0, {}).has_value());
}

TEST_CASE("A year sheet's cells add up to its days", "[rays][property]") {
    const Written written;
    std::vector<UtcSeconds> midnights;
    for (const rays::SunTableDay& day : written.sun.days()) {
        midnights.push_back(UtcSeconds::since_1970(days_since_1970(day.date) * 86400.0));
    }
    const rays::YearSheet sheet =
        rays::year_sheet(written.sun, written.light, 0, midnights, 30.0, 48);
    REQUIRE(sheet.cells.size() == 3 * 48);
    for (std::size_t day = 0; day < 3; ++day) {
        rays::LightMinutes sum;
        for (std::size_t cell = 0; cell < 48; ++cell) {
            sum.full_min += sheet.cells[48 * day + cell].full_min;
            sum.effective_min += sheet.cells[48 * day + cell].effective_min;
        }
        const auto whole = rays::day_minutes(written.sun, written.light, 0, day);
        CHECK(sum.full_min == Approx(whole.full_min).margin(1e-9));
        CHECK(sum.effective_min == Approx(whole.effective_min).margin(1e-9));
    }
}

TEST_CASE("A span is found by its samples", "[rays][property]") {
    const Written written;
    CHECK(written.light.at_sample(0, 0, 99) == nullptr);
    CHECK(state_of(written.light.at_sample(0, 0, 100)) == 0);
    CHECK(state_of(written.light.at_sample(0, 0, 159)) == 0);
    CHECK(state_of(written.light.at_sample(0, 0, 160)) == 1);
    CHECK(written.light.at_sample(0, 0, 190) == nullptr);
    CHECK(written.light.at_sample(0, 1, 160) == nullptr);
}
