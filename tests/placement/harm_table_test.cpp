#include "sunfleck/placement/harm_table.h"

#include "base/within.h"
#include "placement/invented_garden.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace sunfleck;
using namespace sunfleck::placement;
using namespace sunfleck::placement_test;
using sunfleck::test::within;

namespace {

// As many random gardens as each of their properties is tried on.
constexpr std::uint64_t garden_count = 200;

const SunPattern net = with_share(open_sun(), 10, 17, 0.6);
const SunPattern dark = no_sun();

/// The crown's exposure at a spot.
const exposure::SunMinutes& crown_mean(const exposure::ExposureTable& table, std::size_t spot) {
    for (const auto& receiver : table.receivers) {
        if (receiver.receiver.spot == spot &&
            receiver.receiver.kind == exposure::ReceiverKind::crown) {
            return receiver.mean;
        }
    }
    throw std::logic_error("no such receiver");
}

bool is_same(double a, double b) {
    return std::abs(a - b) <= 0.0;
}

}  // namespace

TEST_CASE("the table quotes the exposure's own figures", "[placement][property]") {
    InventedGarden garden;
    garden.add_spot(open_sun());
    garden.add_spot(net);
    make_small_maple(garden.add_pot("M", "A-1"));
    const auto exposure = garden.exposure_of(dates_of("midsummer"));
    const HarmTable table = garden.table("midsummer");
    for (std::size_t spot = 0; spot < 2; ++spot) {
        const SpotFigures& figures = table.at(0, spot).figures;
        const exposure::SunMinutes& mean = crown_mean(exposure, spot);
        CHECK(is_same(figures.full_min, mean.full_min));
        CHECK(is_same(figures.hot_full_min, mean.hot_full_min));
        CHECK(is_same(figures.filtered_min, mean.filtered_min));
        CHECK(is_same(figures.effective_min, mean.effective_min));
        CHECK(is_same(figures.hot_effective_min, mean.hot_effective_min));
    }
    CHECK(table.at(0, 0).figures.hot_full_min == Approx(300.0));
    CHECK(table.at(0, 1).figures.hot_effective_min == Approx(180.0));
    CHECK(table.at(0, 0).figures.light_share == Approx(1.0).epsilon(1e-6));
    CHECK(table.at(0, 0).figures.west_wall_full_min.value() ==
          Approx(0.5 * table.at(0, 0).figures.full_min).epsilon(0.01));
    CHECK(table.day_count == 56);
}

TEST_CASE("harm is counted in days of the period", "[placement][property]") {
    InventedGarden garden;
    garden.add_spot(dark);
    scene::Pot& pot = garden.add_pot("P", "A-1");
    pot.wants.shade_tolerance = 1.25;  // a light need of one
    const HarmTable table = garden.table("midsummer");
    CHECK(table.at(0, 0).parts.light_deficit == Approx(56.0));
    CHECK(table.at(0, 0).parts.hot_sun <= 0.0);
    CHECK(table.at(0, 0).parts.pot_wall <= 0.0);
}

TEST_CASE("small thirsty pots want midday shade in summer and the open in autumn",
          "[placement][property]") {
    InventedGarden garden;
    garden.add_spot(open_sun());
    garden.add_spot(net);
    make_small_maple(garden.add_pot("M"));
    make_large_pine(garden.add_pot("P"));
    const HarmTable summer = garden.table("midsummer");
    CHECK(summer.at(0, 1).parts.total() < summer.at(0, 0).parts.total());
    CHECK(summer.at(1, 0).parts.total() < summer.at(1, 1).parts.total());
    const HarmTable autumn = garden.table("autumn");
    CHECK(autumn.at(0, 0).parts.total() < autumn.at(0, 1).parts.total());
    CHECK(autumn.at(1, 0).parts.total() < autumn.at(1, 1).parts.total());
}

TEST_CASE("morning sun is kinder than the same hours of afternoon", "[placement][property]") {
    InventedGarden garden;
    garden.add_spot(with_share(dark, 6, 12, 1.0));
    garden.add_spot(with_share(dark, 12, 18, 1.0));
    make_small_maple(garden.add_pot("M"));
    const HarmTable table = garden.table("midsummer");
    CHECK(table.at(0, 0).figures.full_min == Approx(table.at(0, 1).figures.full_min));
    CHECK(table.at(0, 0).parts.total() < table.at(0, 1).parts.total());
}

TEST_CASE("in two hundred gardens a net over a spot never raises its hot-sun part",
          "[placement][property]") {
    double saved = 0.0;
    for (std::uint64_t seed = 1; seed <= garden_count; ++seed) {
        CAPTURE(seed);
        InventedGarden garden = random_garden(seed, 6, 8);
        const HarmTable bare = garden.table("midsummer");
        Dice dice(seed + 1000);
        const auto under = static_cast<std::size_t>(dice.whole(0, 7));
        const int from = dice.whole(4, 15);
        const int to = from + dice.whole(1, 8);
        for (int hour = from; hour < to; ++hour) {
            garden.summer[under][static_cast<std::size_t>(hour)] *= 0.6;
        }
        const HarmTable netted = garden.table("midsummer");
        int raised = 0;
        int touched = 0;
        for (std::size_t row = 0; row < bare.rows.size(); ++row) {
            for (std::size_t spot = 0; spot < bare.spots.size(); ++spot) {
                const HarmParts& before = bare.at(row, spot).parts;
                const HarmParts& after = netted.at(row, spot).parts;
                raised += after.hot_sun > before.hot_sun + 1e-9 ? 1 : 0;
                raised += after.pot_wall > before.pot_wall + 1e-9 ? 1 : 0;
                raised += after.light_deficit < before.light_deficit - 1e-9 ? 1 : 0;
                saved += before.hot_sun - after.hot_sun;
                if (spot != under && bare.at(row, spot).light_spot != under) {
                    touched += std::abs(after.hot_sun - before.hot_sun) > 0.0 ? 1 : 0;
                }
            }
        }
        CHECK(raised == 0);
        CHECK(touched == 0);
    }
    CHECK(saved > 1000.0);
}

TEST_CASE("in two hundred gardens half the soil never lowers a pot's harm in sun",
          "[placement][property]") {
    double added = 0.0;
    for (std::uint64_t seed = 1; seed <= garden_count; ++seed) {
        CAPTURE(seed);
        InventedGarden garden = random_garden(seed, 6, 8);
        const HarmTable whole = garden.table("midsummer");
        for (scene::Pot& pot : garden.scene.pots) pot.soil_l *= 0.5;
        const HarmTable half = garden.table("midsummer");
        int lowered = 0;
        for (std::size_t i = 0; i < whole.cells.size(); ++i) {
            lowered += half.cells[i].parts.hot_sun < whole.cells[i].parts.hot_sun ? 1 : 0;
            lowered += half.cells[i].parts.pot_wall < whole.cells[i].parts.pot_wall ? 1 : 0;
            added += half.cells[i].parts.hot_sun - whole.cells[i].parts.hot_sun;
        }
        CHECK(lowered == 0);
    }
    CHECK(added > 1000.0);
}

TEST_CASE("in two hundred gardens jump and move obey the triangle inequality",
          "[placement][property]") {
    for (std::uint64_t seed = 1; seed <= garden_count; ++seed) {
        CAPTURE(seed);
        const InventedGarden garden = random_garden(seed, 5, 7);
        const HarmTable table = garden.table("early_summer");
        const auto step = [&](std::size_t row, std::size_t from, std::size_t to) {
            return table.jump(row, from, to) + (from == to ? 0.0 : table.rows[row].move_cost);
        };
        int broken = 0;
        for (std::size_t row = 0; row < table.rows.size(); ++row) {
            for (std::size_t a = 0; a < 7; ++a) {
                for (std::size_t b = 0; b < 7; ++b) {
                    for (std::size_t c = 0; c < 7; ++c) {
                        const double by_way_of_b = step(row, a, b) + step(row, b, c);
                        broken += step(row, a, c) > by_way_of_b + 1e-12 ? 1 : 0;
                    }
                }
            }
        }
        CHECK(broken == 0);
    }
}

// Each weight alone, so that none can be left out or turned round unseen. What a weight of 1 makes
// costs more where there is more of what the part is about.
TEST_CASE("each weight adds its own part, and adds it as harm", "[placement][property]") {
    InventedGarden garden;
    garden.add_spot(dark);
    garden.add_spot(open_sun());
    make_small_maple(garden.add_pot("M", "A-1"));
    const auto cost = [&](const char* weight, double value, std::size_t spot) {
        garden.scene.harm_weights = {{"hot_sun", 0.0}, {"light_deficit", 0.0}, {"pot_wall", 0.0},
                                     {"jump", 0.0},    {"lift", 0.0},          {"carry", 0.0}};
        for (auto& [name, own] : garden.scene.harm_weights) {
            if (name == weight) own = value;
        }
        return garden.table("midsummer").cost(0, spot);
    };
    constexpr double least_move = 0.001;
    struct Row {
        const char* weight;
        std::size_t bad_spot;
        std::size_t good_spot;
    };
    for (const Row& row : {Row{"hot_sun", 1, 0}, Row{"light_deficit", 0, 1}, Row{"pot_wall", 1, 0},
                           Row{"jump", 1, 0}}) {
        CAPTURE(row.weight);
        const double once = cost(row.weight, 1.0, row.bad_spot);
        CHECK(once > 0.5);
        CHECK(cost(row.weight, 2.0, row.bad_spot) - once == within(once, 1.01 * least_move));
        CHECK(cost(row.weight, 1.0, row.good_spot) <= least_move);
    }
    CHECK(cost("lift", 1.0, 1) == within(2.0, 1e-9));
    CHECK(cost("lift", 1.0, 0) <= 0.0);
    CHECK(cost("carry", 1.0, 1) == within(0.1 * 0.9, 1e-9));
    CHECK(cost("carry", 3.0, 1) == within(0.3 * 0.9, 1e-9));
}

TEST_CASE("a step in light weighs more on soft leaves", "[placement][property]") {
    InventedGarden garden;
    garden.add_spot(dark);
    garden.add_spot(open_sun());
    make_small_maple(garden.add_pot("M", "A-1"));
    const double june = garden.table("early_summer").at(0, 1).parts.jump;
    const double autumn = garden.table("autumn").at(0, 1).parts.jump;
    CHECK(june == Approx(6.0 * 1.4).epsilon(0.01));
    CHECK(autumn < 0.25 * june);
    CHECK(garden.table("early_summer").at(0, 0).parts.jump <= 0.0);
}

TEST_CASE("a step in light is taken by the leaves of the period's first fortnight",
          "[placement][property]") {
    InventedGarden garden;
    garden.add_spot(dark);
    garden.add_spot(open_sun());
    make_small_maple(garden.add_pot("M", "A-1"));
    const auto softness = [&](unsigned month, unsigned day) {
        return day_factors(garden.scene.site, make_date(2026, month, day)).softness;
    };
    // Computed are 21 and 28 June and further weeks, in which leaves harden.
    CHECK(softness(8, 9) < 0.6 * softness(6, 28));
    CHECK(garden.table("midsummer").at(0, 1).parts.jump ==
          within(6.0 * 1.4 * 0.5 * (softness(6, 21) + softness(6, 28)), 1e-6));
}

TEST_CASE("a crowded place is no reason to go, one that is ruled out is", "[placement][property]") {
    InventedGarden garden;
    for (int i = 0; i < 4; ++i) garden.add_spot(open_sun());
    garden.spots[0].length_m = 0.10;
    garden.spots[0].is_explicit = true;
    garden.spots[1].headroom_m = 0.10;
    garden.add_pot("LONG", "A-1");
    garden.add_pot("TALL", "A-2");
    garden.add_pot("OUT", "A-3").not_on = {"A-3"};
    garden.add_pot("KEPT", "A-4").not_on = {"A-4"};
    garden.scene.pots[3].pinned = true;
    const HarmTable table = garden.table("midsummer");
    CHECK(table.at(0, 0).refusal == Refusal::none);
    CHECK(table.at(1, 0).refusal == Refusal::does_not_fit);
    CHECK(table.at(1, 1).refusal == Refusal::none);
    CHECK(table.at(0, 1).refusal == Refusal::too_tall);
    CHECK(table.at(2, 2).refusal == Refusal::excluded);
    CHECK(table.at(3, 3).refusal == Refusal::none);
}

TEST_CASE("all hands together lift just what they can", "[placement][property]") {
    InventedGarden garden;
    for (int i = 0; i < 4; ++i) garden.add_spot(open_sun());
    garden.scene.lifting = {.people = 2, .limit_kg = 10.0};
    garden.add_pot("ONE", "A-1").weight_kg = 10.0;
    garden.add_pot("BOTH", "A-2").weight_kg = 20.0;
    garden.add_pot("NONE", "A-3").weight_kg = 20.1;
    garden.add_pot("NEW").weight_kg = 80.0;  // it comes by other means
    const HarmTable table = garden.table("midsummer");
    CHECK(table.rows[0].may_move);
    CHECK(table.rows[1].may_move);
    CHECK_FALSE(table.rows[2].may_move);
    CHECK(table.rows[3].may_move);
}

TEST_CASE("hard rules refuse before harm is weighed", "[placement][property]") {
    InventedGarden garden;
    for (int i = 0; i < 6; ++i) garden.add_spot(open_sun());
    garden.spots[1].length_m = 0.10;
    garden.spots[1].is_explicit = true;
    garden.spots[2].headroom_m = 0.20;
    scene::Bench weak;
    weak.label.id = "W";
    weak.tiers.push_back({.height_m = 0.8, .depth_m = 0.5, .max_load_kg = 1.0});
    garden.scene.benches.push_back(weak);
    garden.spots[3].bench = "W";
    garden.spots[3].id = "W-1";
    garden.add_pot("FREE", "A-1").not_on = {"A-5"};
    garden.add_pot("PIN", "A-5").pinned = true;
    garden.add_pot("HEAVY", "A-6").weight_kg = 60.0;
    const HarmTable table = garden.table("midsummer");
    CHECK(table.at(0, 0).refusal == Refusal::none);
    CHECK(table.at(0, 1).refusal == Refusal::does_not_fit);
    CHECK(table.at(0, 2).refusal == Refusal::too_tall);
    CHECK(table.at(0, 3).refusal == Refusal::too_heavy);
    CHECK(table.at(0, 4).refusal == Refusal::excluded);
    CHECK(table.at(1, 4).refusal == Refusal::none);
    CHECK(table.at(1, 0).refusal == Refusal::pinned_elsewhere);
    CHECK(table.at(2, 5).refusal == Refusal::none);
    CHECK(table.at(2, 0).refusal == Refusal::unliftable);
    CHECK(table.rows[0].may_move);
    CHECK_FALSE(table.rows[1].may_move);
    CHECK_FALSE(table.rows[2].may_move);
}

TEST_CASE("a batch is so many single pots along its bench", "[placement][property]") {
    InventedGarden garden;
    for (int i = 0; i < 5; ++i) garden.add_spot(open_sun());
    garden.add_pot("B", "A-1").count = 3;
    garden.add_pot("S", "A-2");
    const Standing standing = standing_now(garden.scene, garden.spots);
    CHECK(standing == Standing{0, 2, 3, 1});
    const HarmTable table = garden.table("midsummer");
    REQUIRE(table.rows.size() == 4);
    CHECK(table.rows[2].pot == 0);
    CHECK(table.rows[2].copy == 3);
}

TEST_CASE("a wide pot covers its neighbours and takes the middle's light",
          "[placement][property]") {
    InventedGarden garden;
    for (int i = 0; i < 4; ++i) garden.add_spot(i == 1 ? net : open_sun());
    for (scene::Spot& spot : garden.spots) {
        spot.length_m = 0.3;
        spot.position.x = 0.3 * spot.number;
    }
    make_large_pine(garden.add_pot("W"));
    garden.scene.pots[0].crown_width_m = 0.8;
    const HarmTable table = garden.table("midsummer");
    CHECK(table.covered(0, 0) == std::vector<std::size_t>{0, 1, 2});
    CHECK(table.at(0, 0).light_spot == 1);
    CHECK(table.at(0, 0).figures.hot_full_min <= 0.0);
    CHECK(table.at(0, 3).refusal == Refusal::does_not_fit);
}

TEST_CASE("only receivers that a pot could use are asked for", "[placement][property]") {
    InventedGarden garden;
    garden.add_spot(open_sun());
    garden.add_spot(open_sun());
    garden.add_pot("A1", "A-1");
    garden.add_pot("A2", "A-2");
    const auto summer = receivers_needed(garden.scene, garden.spots, dates_of("midsummer"));
    CHECK(summer.size() == 2 * 2);  // crown and west side
    const scene::DateRange winter{make_date(2026, 12, 1), make_date(2027, 2, 28)};
    CHECK(receivers_needed(garden.scene, garden.spots, winter).size() == 2);
    garden.scene.pots[1].crown_height_m = 1.2;
    CHECK(receivers_needed(garden.scene, garden.spots, winter).size() == 4);
}
