#include "sunfleck/placement/harm_model.h"

#include "base/within.h"
#include "placement/invented_garden.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace sunfleck;
using namespace sunfleck::placement;
using namespace sunfleck::placement_test;
using sunfleck::test::within;

namespace {

scene::Site site_at(double latitude_deg) {
    scene::Site site;
    site.place.latitude = Latitude::degrees(latitude_deg);
    return site;
}

constexpr DayFactors hottest{.heat = 1.0, .ripening = 0.15, .activity = 1.0, .softness = 1.0};

SpotDay open_summer_day() {
    return {.hot_effective_h = 5.0,
            .light_wh_m2 = 8000.0,
            .open_light_wh_m2 = 8000.0,
            .sun_up_h = 16.0,
            .wall_effective_h = 7.0};
}

scene::Pot pot_of(void (*make)(scene::Pot&)) {
    scene::Pot pot;
    make(pot);
    return pot;
}

}  // namespace

TEST_CASE("the worked figures of the model's page", "[placement][property]") {
    // A middling tree that bears none of five hot hours loses one growth day a day.
    PotNature middling;
    middling.hot_sun_per_h = 0.2 * (1.5 - 0.2 * 2.5);
    CHECK(hot_sun_harm(middling, hottest, open_summer_day()) == Approx(1.0));

    // Small Japanese maple: 6 - 5 + 2 log10(0.38 / 0.5) + 0.4 (2 - 2.5) - 0.5 hours.
    const PotNature maple = nature_of(pot_of(make_small_maple), make_date(2026, 7, 1));
    CHECK(maple.bears_hot_h == Approx(0.3 + 2.0 * std::log10(0.76)));
    CHECK(maple.hot_sun_per_h == Approx(0.2 * 1.1 * 1.4));
    CHECK(maple.light_need == Approx(1.2 - 0.16 * 3.5));

    // A large pine bears all five hot hours.
    const PotNature pine = nature_of(pot_of(make_large_pine), make_date(2026, 7, 1));
    CHECK(pine.bears_hot_h > 5.0);
    CHECK(hot_sun_harm(pine, hottest, open_summer_day()) <= 0.0);

    // No light at all in growth costs the light need; under an open sky nothing.
    SpotDay dark = open_summer_day();
    dark.light_wh_m2 = 0.0;
    CHECK(light_deficit_harm(maple, hottest, dark) == Approx(maple.light_need));
    CHECK(light_deficit_harm(maple, hottest, open_summer_day()) <= 0.0);
    // Half the light of four mean sun hours of sixteen: half the want, 7/8 below the open sky.
    SpotDay dim = open_summer_day();
    dim.light_wh_m2 = 1000.0;
    CHECK(light_deficit_harm(maple, hottest, dim) ==
          Approx(maple.light_need * (0.85 * 0.5 + 0.15 * 0.875)));

    // A dark pot of 0.38 L with the sun on its west side for seven hours, two of which it bears.
    scene::Pot dark_pot = pot_of(make_small_maple);
    dark_pot.colour = scene::PotColour::dark;
    const PotNature dark_nature = nature_of(dark_pot, make_date(2026, 7, 1));
    CHECK(pot_wall_harm(dark_nature, hottest, open_summer_day()) ==
          Approx(0.05 * 5.0 / (1.0 + 0.38 / 3.0)));
    SpotDay brief = open_summer_day();
    brief.wall_effective_h = 2.0;
    CHECK(pot_wall_harm(dark_nature, hottest, brief) <= 0.0);

    CHECK(jump_harm(maple, 1.0, 0.2, 0.7) == Approx(6.0 * 1.4 * 0.5));
    CHECK(jump_harm(maple, 1.0, 0.7, 0.2) <= 0.0);
    CHECK(move_cost(pot_of(make_large_pine), HarmWeights{}) == Approx(2.0 + 0.1 * 28.0));
}

TEST_CASE("growers' rule: large pots bear two to four hours more", "[placement][property]") {
    scene::Pot pot = pot_of(make_small_maple);
    pot.wants.sun_max_h = 9.0;
    pot.soil_l = 0.5;
    const double small = nature_of(pot, make_date(2026, 7, 1)).bears_hot_h;
    pot.soil_l = 8.0;
    CHECK(nature_of(pot, make_date(2026, 7, 1)).bears_hot_h - small > 2.0);
    pot.soil_l = 150.0;
    CHECK(nature_of(pot, make_date(2026, 7, 1)).bears_hot_h - small == Approx(4.0));
}

TEST_CASE("halving the soil never lowers harm in sun", "[placement][property]") {
    Dice dice(7);
    for (int i = 0; i < 500; ++i) {
        scene::Pot pot;
        pot.soil_l = std::pow(10.0, dice.between(-2.0, 2.0));
        pot.wants.sun_max_h = dice.between(3.0, 16.0);
        pot.wants.drought_tolerance = dice.between(0.0, 5.0);
        pot.wants.scorch_risk = static_cast<scene::ScorchRisk>(dice.whole(0, 2));
        SpotDay day = open_summer_day();
        day.hot_effective_h = dice.between(0.0, 5.0);
        day.wall_effective_h = dice.between(0.0, 8.0);
        const PotNature whole = nature_of(pot, make_date(2026, 7, 1));
        pot.soil_l *= 0.5;
        const PotNature half = nature_of(pot, make_date(2026, 7, 1));
        CHECK(hot_sun_harm(half, hottest, day) >= hot_sun_harm(whole, hottest, day));
        CHECK(pot_wall_harm(half, hottest, day) >= pot_wall_harm(whole, hottest, day));
    }
}

TEST_CASE("each part grows the way growers know it", "[placement][property]") {
    const PotNature maple = nature_of(pot_of(make_small_maple), make_date(2026, 7, 1));
    SpotDay day = open_summer_day();
    const double open = hot_sun_harm(maple, hottest, day);
    day.hot_effective_h = 3.0;  // behind a 40 % net
    const double filtered = hot_sun_harm(maple, hottest, day);
    CHECK(filtered > 0.0);
    CHECK(filtered < 0.6 * open);
    day.light_wh_m2 = 1500.0;
    const double dim = light_deficit_harm(maple, hottest, day);
    day.light_wh_m2 = 500.0;
    CHECK(light_deficit_harm(maple, hottest, day) > dim);
    scene::Pot pale = pot_of(make_small_maple);
    pale.colour = scene::PotColour::pale;
    CHECK(pot_wall_harm(nature_of(pale, make_date(2026, 7, 1)), hottest, open_summer_day()) <
          pot_wall_harm(maple, hottest, open_summer_day()));
}

TEST_CASE("a step in light obeys the triangle inequality with moving", "[placement][property]") {
    Dice dice(11);
    for (int i = 0; i < 1000; ++i) {
        scene::Pot pot;
        pot.weight_kg = dice.between(0.0, 30.0);
        pot.wants.scorch_risk = static_cast<scene::ScorchRisk>(dice.whole(0, 2));
        const PotNature nature = nature_of(pot, make_date(2026, 6, 1));
        const double softness = dice.between(0.0, 1.0);
        const double a = dice.between(0.0, 1.0);
        const double b = dice.between(0.0, 1.0);
        const double c = dice.between(0.0, 1.0);
        const double move = move_cost(pot, HarmWeights{});
        const auto step = [&](double here, double there) {
            return jump_harm(nature, softness, here, there) + move;
        };
        CHECK(step(a, c) <= step(a, b) + step(b, c) + 1e-12);
    }
}

TEST_CASE("the calendar makes heat, ripening and soft leaves", "[placement][property]") {
    const scene::Site north = site_at(51.5);
    const DayFactors june = day_factors(north, make_date(2026, 6, 1));
    const DayFactors july = day_factors(north, make_date(2026, 7, 20));
    const DayFactors october = day_factors(north, make_date(2026, 10, 10));
    CHECK(july.heat == Approx(1.0));
    CHECK(july.ripening == Approx(0.15));
    CHECK(october.heat <= 0.0);
    CHECK(october.ripening == Approx(1.0));
    CHECK(june.softness == Approx(1.0));
    CHECK(october.softness < 0.2);
    CHECK(day_factors(north, make_date(2026, 1, 10)).activity == Approx(0.2));
}

TEST_CASE("the south has the north's seasons half a year later", "[placement][property]") {
    for (int day = 0; day < 365; day += 5) {
        const Date date = add_days(make_date(2026, 1, 1), day);
        // 18 January there is 20 July here, 182 days later.
        const DayFactors south = day_factors(site_at(-37.8), date);
        const DayFactors north = day_factors(site_at(37.8), add_days(date, 183));
        CAPTURE(iso_date(date));
        CHECK(south.heat == within(north.heat, 0.06));
        CHECK(south.ripening == within(north.ripening, 0.06));
        CHECK(south.activity == within(north.activity, 0.06));
        CHECK(south.softness == within(north.softness, 0.06));
    }
}

TEST_CASE("heat follows the site's own normals where they are given", "[placement][property]") {
    scene::Site hot = site_at(37.0);
    hot.normals.max_temperature_c = {15, 17, 20, 22, 26, 31, 35, 35, 30, 25, 19, 16};
    CHECK(day_factors(hot, make_date(2026, 9, 15)).heat == Approx(1.0));
    CHECK(day_factors(hot, make_date(2026, 3, 15)).heat == Approx(2.0 / 7.0));
    scene::Site cool = site_at(57.0);
    cool.normals.max_temperature_c = {6, 7, 9, 12, 15, 17, 19, 19, 17, 13, 9, 7};
    CHECK(day_factors(cool, make_date(2026, 7, 15)).heat == Approx(1.0 / 7.0));
    // Every day lies between 0 and 1, and no day jumps.
    for (const scene::Site& site : {hot, cool, site_at(10.0), site_at(-45.0)}) {
        DayFactors before = day_factors(site, make_date(2027, 12, 31));
        for (int day = 0; day < 366; ++day) {
            const Date date = add_days(make_date(2028, 1, 1), day);
            const DayFactors now = day_factors(site, date);
            CAPTURE(iso_date(date), site.place.latitude.in_degrees());
            for (const auto& [x, y] : {std::pair{now.heat, before.heat},
                                       {now.ripening, before.ripening},
                                       {now.activity, before.activity},
                                       {now.softness, before.softness}}) {
                CHECK((x >= 0.0 && x <= 1.0));
                CHECK(std::abs(x - y) < 0.06);
            }
            before = now;
        }
    }
}

TEST_CASE("a repotted tree wants bright shade until its day", "[placement][property]") {
    scene::Pot pot = pot_of(make_large_pine);
    pot.state = scene::StateUntil{scene::PassingState::repotted, make_date(2026, 4, 20)};
    const DayFactors april = day_factors(site_at(51.5), make_date(2026, 4, 20));
    const PotNature until = nature_of(pot, make_date(2026, 4, 20));
    const PotNature after = nature_of(pot, make_date(2026, 4, 21));
    CHECK(hot_sun_harm(until, april, open_summer_day()) > 0.5);
    CHECK(hot_sun_harm(after, april, open_summer_day()) <= 0.0);
    CHECK(until.wanted_sun_h < after.wanted_sun_h);
}

TEST_CASE("a scene weighs harm by name", "[placement][property]") {
    scene::Scene scene;
    scene.file = "garden.json";
    CHECK(harm_weights_of(scene).value() == HarmWeights{});
    scene.harm_weights = {{"pot_wall", 2.0}, {"lift", 0.0}};
    const HarmWeights weights = harm_weights_of(scene).value();
    CHECK(weights.pot_wall == Approx(2.0));
    CHECK(weights.lift <= 0.0);
    // A free move still costs a crumb, so that nothing moves for nothing.
    CHECK(move_cost(scene::Pot{}, weights) > 0.0);

    scene.harm_weights = {
        {"hot_sum", 1.0}, {"jump", -1.0}, {"carry", std::nan("")}, {"warmth", 1.0}};
    const auto wrong = harm_weights_of(scene);
    REQUIRE_FALSE(wrong);
    REQUIRE(wrong.error().size() == 4);
    CHECK(wrong.error()[0].code == "value_out_of_range");
    CHECK(wrong.error()[1].nearest == "hot_sun");
    CHECK(wrong.error()[1].pointer == "/harm_weights/hot_sum");
    CHECK(wrong.error()[2].code == "value_out_of_range");
    CHECK(wrong.error()[3].nearest.empty());
    for (const Problem& problem : wrong.error()) CHECK_FALSE(problem.mend.empty());
}
