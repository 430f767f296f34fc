#include "sunfleck/placement/reasons.h"

#include "base/within.h"
#include "placement/invented_garden.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/light/clear_sky.h"
#include "sunfleck/placement/move_plan.h"
#include "sunfleck/placement/why_here.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <regex>
#include <set>

using namespace sunfleck;
using namespace sunfleck::placement;
using namespace sunfleck::placement_test;
using sunfleck::test::within;

namespace {

const SunPattern net = with_share(open_sun(), 10, 18, 0.5);
const SunPattern dark = no_sun();

/// Every duration and light figure that the exposure of a row's spots justifies.
std::set<std::string> known_figures(const InventedGarden& garden, const HarmTable& table,
                                    std::size_t row, const std::set<std::size_t>& spots) {
    std::set<std::string> known{
        duration_words(std::round(table.rows[row].bears_hot_h * 2.0) * 30.0),
        duration_words(garden.scene.pots[table.rows[row].pot].wants.sun_min_h * 60.0)};
    const auto exposure = garden.exposure_of(table.dates);
    for (const std::size_t spot : spots) {
        for (const auto& receiver : exposure.receivers) {
            if (receiver.receiver.spot != table.at(row, spot).light_spot) continue;
            for (const double minutes :
                 {receiver.mean.full_min, receiver.mean.filtered_min, receiver.mean.hot_full_min,
                  receiver.mean.effective_min, receiver.mean.hot_effective_min}) {
                known.insert(duration_words(minutes));
            }
        }
        known.insert(
            fixed_words(table.at(row, spot).figures.light_kwh_m2 * 1000.0 * light::dli_mol_per_wh,
                        0) +
            " mol");
    }
    return known;
}

std::vector<std::string> figures_in(const std::string& text) {
    static const std::regex figure("[0-9]+ h [0-9]+|[0-9]+ h|[0-9]+ min|[0-9]+ mol");
    std::vector<std::string> found;
    for (auto it = std::sregex_iterator(text.begin(), text.end(), figure);
         it != std::sregex_iterator(); ++it) {
        found.push_back(it->str());
    }
    return found;
}

}  // namespace

TEST_CASE("a move's reason says what changes and what the pot bears", "[placement][golden]") {
    InventedGarden garden;
    garden.add_spot(open_sun());
    garden.add_spot(net);
    garden.add_spot(dark);
    make_small_maple(garden.add_pot("M07", "A-1"));
    make_large_pine(garden.add_pot("P01", "A-2"));
    const HarmTable table = garden.table("midsummer");
    CHECK(move_reason(garden.scene, table, {1, 0}, 0) ==
          "Full sun in the hot hours falls from 5 h to none; it bears hardly any.");
    CHECK(move_reason(garden.scene, table, {1, 0}, 1) ==
          "Full sun in the day rises from 8 h to 16 h.");
    // One that only makes room says for whom.
    CHECK(move_reason(garden.scene, table, {1, 2}, 1) ==
          "Makes room for M07. Too dark: no full sun in the day, 0 mol of light; it wants 6 h of "
          "sun or more.");
    CHECK(standing_words(table, 0, 0) ==
          "Scorches: 5 h of full sun in the hot hours; it bears hardly any.");
    CHECK(standing_words(table, 1, 0) ==
          "Content with 16 h of full sun in the day, 5 h of it in the hot hours.");
    // Through the net half of five hours comes: more than a small maple bears.
    CHECK(standing_words(table, 0, 1) ==
          "Scorches: 2 h 30 of sun in the hot hours (filtered sun in part); it bears hardly any.");
}

TEST_CASE("identical spots are equally good and have no story", "[placement][property]") {
    InventedGarden garden;
    garden.add_spot(net);
    garden.add_spot(net);
    make_small_maple(garden.add_pot("M07", "A-1"));
    const HarmTable table = garden.table("midsummer");
    CHECK(move_reason(garden.scene, table, {1}, 0) == "Equally good there.");
    // Without a cost of moving the two spots are the same plan.
    garden.scene.harm_weights = {{"lift", 0.0}, {"carry", 0.0}};
    const HarmTable free = garden.table("midsummer");
    const SeasonPlan plan = plan_season(garden.scene, free);
    CHECK(plan.lifts == 0);
    const auto why = why_here(garden.scene, free, plan, 0, 1);
    REQUIRE(why);
    CHECK(why->is_equally_good);
    CHECK(why->own_harm_change == within(0.0, 1e-9));
}

TEST_CASE("in two hundred gardens twins of a spot have no story", "[placement][property]") {
    int asked = 0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        InventedGarden garden = random_garden(seed, 4, 5);
        for (std::size_t spot = 0; spot < 5; ++spot) {
            garden.add_spot(garden.summer[spot], garden.autumn[spot]);
        }
        const HarmTable table = garden.table("midsummer");
        const SeasonPlan plan = plan_season(garden.scene, table);
        for (std::size_t row = 0; row < table.rows.size(); ++row) {
            const auto& start = table.rows[row].start_spot;
            if (!start || *start >= 5) continue;
            const std::size_t twin = *start + 5;
            if (table.at(row, *start).refusal != Refusal::none) continue;
            if (table.at(row, twin).refusal != Refusal::none) continue;
            // Nobody is carried from one twin to the other.
            CHECK(plan.spot_of_row[row] != twin);
            Standing moved;
            for (const HarmRow& other : table.rows) moved.push_back(other.start_spot);
            moved[row] = twin;
            CHECK(move_reason(garden.scene, table, moved, row) == "Equally good there.");
            ++asked;
        }
    }
    CHECK(asked > 300);
}

TEST_CASE("every figure in a reason is the exposure table's", "[placement][property]") {
    int figures = 0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        const InventedGarden garden = random_garden(seed, 6, 8);
        const HarmTable table = garden.table(seed % 2 == 0 ? "midsummer" : "autumn");
        const SeasonPlan plan = plan_season(garden.scene, table);
        for (std::size_t row = 0; row < table.rows.size(); ++row) {
            const std::size_t spot = *plan.spot_of_row[row];
            const std::size_t from = table.rows[row].start_spot.value_or(spot);
            const auto known = known_figures(garden, table, row, {spot, from});
            const std::string reason = place_reason(garden.scene, table, plan.spot_of_row, row);
            CAPTURE(seed, reason);
            for (const std::string& figure : figures_in(reason)) {
                CHECK(known.count(figure) == 1);
                ++figures;
            }
        }
    }
    CHECK(figures > 1500);
}

TEST_CASE("pots that nothing suits are named with the least bad spot", "[placement][property]") {
    InventedGarden garden;
    garden.add_spot(open_sun());
    garden.add_spot(with_share(open_sun(), 12, 14, 0.0));
    make_small_maple(garden.add_pot("M07", "A-1"));
    make_large_pine(garden.add_pot("P01", "A-2"));
    garden.scene.pots[1].soil_l = 40.0;
    const HarmTable table = garden.table("midsummer");
    const auto unsuited = unsuited_pots(table, {1, 0});
    REQUIRE(unsuited.size() == 1);
    CHECK(unsuited[0].row == 0);
    CHECK(unsuited[0].spot == std::size_t{1});
    CHECK(unsuited[0].why == "Scorches: 3 h of full sun in the hot hours; it bears hardly any.");

    garden.scene.pots[1].not_on = {"A"};
    garden.scene.pots[1].spot.clear();
    const HarmTable none = garden.table("midsummer");
    const auto homeless = unsuited_pots(none, {1, std::nullopt});
    REQUIRE(homeless.size() == 2);
    CHECK_FALSE(homeless[1].spot);
}

TEST_CASE("why here tells what the whole plan would lose", "[placement][cross]") {
    for (std::uint64_t seed = 1; seed <= 15; ++seed) {
        const InventedGarden garden = random_garden(seed, 7, 9);
        const HarmTable table = garden.table("midsummer");
        const SeasonPlan plan = plan_season(garden.scene, table);
        for (std::size_t spot = 0; spot < table.spots.size(); ++spot) {
            CAPTURE(seed, spot);
            const auto why = why_here(garden.scene, table, plan, 0, spot);
            if (table.at(0, spot).refusal != Refusal::none) {
                REQUIRE_FALSE(why);
                CHECK(why.error()[0].code == "spot_refused");
                continue;
            }
            if (!why) {
                CHECK(why.error()[0].code == "spot_held");
                continue;
            }
            CHECK(why->loss_at_least >= 0.0);
            CHECK(why->loss_at_least <= why->objective_change + 1e-6);
            const double efforts = why->other.move_total - plan.move_total;
            CHECK(why->own_harm_change + why->others_harm_change + efforts ==
                  within(why->objective_change, 1e-9));
            CHECK(why->other.spot_of_row[0] == spot);
            if (spot == *plan.spot_of_row[0]) CHECK(why->is_equally_good);
        }
        const auto elsewhere = why_here(garden.scene, table, plan, 0, std::nullopt);
        if (elsewhere) CHECK(elsewhere->instead != *plan.spot_of_row[0]);
    }
}

TEST_CASE("why here passes over benches that pinned pots fill", "[placement][property]") {
    InventedGarden garden;
    for (int i = 0; i < 3; ++i) garden.add_spot(open_sun());
    garden.spots[2].bench = garden.spots[2].id = garden.spots[2].name = "P";
    make_large_pine(garden.add_pot("P01", "A-1"));
    make_large_pine(garden.add_pot("P02", "P"));
    garden.scene.pots[1].pinned = true;
    const HarmTable table = garden.table("midsummer");
    const SeasonPlan plan = plan_season(garden.scene, table);
    const auto why = why_here(garden.scene, table, plan, 0, std::nullopt);
    REQUIRE(why);
    CHECK(why->instead == 1);
    const auto held = why_here(garden.scene, table, plan, 0, 2);
    REQUIRE_FALSE(held);
    CHECK(held.error()[0].code == "spot_held");
}

TEST_CASE("a refusal is told in words", "[placement][property]") {
    InventedGarden garden;
    garden.add_spot(open_sun());
    garden.add_spot(open_sun());
    garden.add_pot("M07", "A-1").not_on = {"A-2"};
    const HarmTable table = garden.table("midsummer");
    CHECK(refusal_words(garden.scene, table, 0, 1) ==
          "The scene says that M07 must not stand at Long bench 2.");
    CHECK(refusal_words(garden.scene, table, 0, 0).empty());
    const SeasonPlan plan = plan_season(garden.scene, table);
    const auto nowhere = why_here(garden.scene, table, plan, 0, std::nullopt);
    REQUIRE_FALSE(nowhere);
    CHECK(nowhere.error()[0].code == "no_other_spot");
    CHECK(nowhere.error()[0].kind == ProblemKind::no_answer);
}
