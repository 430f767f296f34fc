#include "sunfleck/placement/move_plan.h"

#include "base/within.h"
#include "placement/invented_garden.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

using namespace sunfleck;
using namespace sunfleck::placement;
using namespace sunfleck::placement_test;
using sunfleck::test::within;

namespace {

const SunPattern net = with_share(open_sun(), 10, 18, 0.5);

MovePlan moves_of(const InventedGarden& garden, const HarmTable& table) {
    return plan_moves(garden.scene, table, plan_season(garden.scene, table));
}

/// Carries out the steps one by one; false when a pot comes to a spot that is not free.
bool can_be_carried_out(const HarmTable& table, const MovePlan& moves) {
    std::map<std::size_t, std::size_t> holder;  // spot -> row
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        if (const auto& start = table.rows[row].start_spot) {
            for (const std::size_t cell : table.covered(row, *start)) holder[cell] = row;
        }
    }
    const auto lift = [&](std::size_t row) {
        std::erase_if(holder, [row](const auto& entry) { return entry.second == row; });
    };
    for (const MoveStep& step : moves.steps) {
        lift(step.row);
        if (step.kind == MoveStep::Kind::set_aside) continue;
        for (const std::size_t cell : table.covered(step.row, *moves.plan.spot_of_row[step.row])) {
            if (!holder.emplace(cell, step.row).second) return false;
        }
    }
    return true;
}

/// 43 N: seventy small pots, forty middling, ten large and pinned on eleven benches; two nets that
/// come down before autumn, an ash that keeps its leaves. Two people who lift 10 kg each.
InventedGarden whole_collection() {
    InventedGarden garden;
    garden.scene.site.place.latitude = Latitude::degrees(43.0);
    garden.scene.site.time_zone = "Europe/Rome";
    garden.scene.lifting = {.people = 2, .limit_kg = 10.0};
    Dice dice(43);
    const SunPattern open = open_sun();
    for (int spot = 0; spot < 11 * 13; ++spot) {
        const int bench = spot / 13;
        const double share = dice.between(0.4, 0.6);
        if (bench < 4) {
            garden.add_spot(with_share(open, 10, 17, share), open);
        } else if (bench < 7) {
            const SunPattern ash = with_share(open, dice.whole(8, 10), dice.whole(14, 16), 0.15);
            garden.add_spot(ash, ash);
        } else {
            const SunPattern walled = with_share(open, dice.whole(16, 19), 24, 0.0);
            garden.add_spot(walled, with_share(open, dice.whole(13, 17), 24, 0.0));
        }
        garden.spots.back().bench = "B" + std::to_string(bench + 1);
    }
    std::vector<int> order(garden.spots.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = static_cast<int>(i);
    for (std::size_t i = order.size(); i > 1; --i) {
        std::swap(order[i - 1],
                  order[static_cast<std::size_t>(dice.whole(0, static_cast<int>(i) - 1))]);
    }
    for (int p = 0; p < 120; ++p) {
        // Small pots stood under nets and ash all summer, the others anywhere.
        scene::Pot& pot =
            garden.add_pot("P" + std::to_string(p + 1),
                           "A-" + std::to_string(order[static_cast<std::size_t>(p)] + 1));
        p < 70 ? make_small_maple(pot) : make_large_pine(pot);
        pot.pot_length_m = pot.pot_width_m = 0.2;
        pot.soil_l = p < 70 ? dice.between(0.05, 0.7) : dice.between(0.7, 8.0);
        pot.weight_kg = p < 70 ? dice.between(0.1, 1.2) : dice.between(1.5, 25.0);
        if (p >= 110) {
            pot.weight_kg = dice.between(15.0, 70.0);
            pot.pinned = true;
        }
    }
    return garden;
}

InventedGarden maple_in_the_open_pine_under_the_net() {
    InventedGarden garden;
    garden.add_spot(open_sun());
    garden.add_spot(net);
    make_small_maple(garden.add_pot("M07", "A-1"));
    make_large_pine(garden.add_pot("P01", "A-2"));
    return garden;
}

}  // namespace

TEST_CASE("a whole collection goes from summer to autumn by twenty lifts",
          "[placement][scenario]") {
    InventedGarden garden = whole_collection();
    const HarmTable table = garden.table("autumn");
    const SeasonPlan all = plan_season(garden.scene, table);
    const MovePlan few =
        plan_moves(garden.scene, table, plan_season(garden.scene, table, {.lifts = 20}));
    CHECK(all.is_optimal);
    CHECK(all.lifts > 20);
    CHECK(few.plan.lifts <= 20);
    CHECK(few.plan.bound <= few.plan.objective);
    CHECK(few.plan.objective >= all.objective - 1e-6);
    CHECK(few.plan.gap_fraction() < 0.01);
    CHECK(can_be_carried_out(table, few));
    // What saves most for each pot lifted comes first.
    const auto by_lift = [](const MoveGroup& group) {
        return (group.gain - group.effort) / static_cast<double>(group.rows.size());
    };
    for (std::size_t i = 0; i < few.groups.size(); ++i) {
        CHECK(few.groups[i].gain >= few.groups[i].effort - 1e-5);
        if (i > 0) CHECK(by_lift(few.groups[i]) <= by_lift(few.groups[i - 1]) + 1e-6);
    }
    for (const PotMove& move : few.moves) {
        CHECK(move.weight_kg <= 20.0);
        CHECK(move.people == (move.weight_kg > 10.0 ? 2 : 1));
        CHECK_FALSE(move.reason.empty());
    }
    for (std::size_t row = 110; row < 120; ++row) {
        CHECK(all.spot_of_row[row] == table.rows[row].start_spot);
    }
    // The twenty are the ones that matter most: most of what all moves save, for a part of them.
    const double saved_by_all = few.harm_before - all.harm_total;
    CHECK(few.harm_before - few.harm_after > 20.0 / all.lifts * saved_by_all);
    // Carried out, the whole plan is a plan kept.
    const HarmTable again = garden.table("autumn", &all.spot_of_row);
    CHECK(plan_season(garden.scene, again).lifts == 0);
}

TEST_CASE("two pots that want each other's spot swap", "[placement][property]") {
    InventedGarden garden = maple_in_the_open_pine_under_the_net();
    garden.scene.lifting = {.people = 2, .limit_kg = 15.0};
    const HarmTable table = garden.table("midsummer");
    const MovePlan moves = moves_of(garden, table);
    REQUIRE(moves.groups.size() == 1);
    CHECK(moves.groups[0].kind == MoveGroup::Kind::swap);
    REQUIRE(moves.moves.size() == 2);
    CHECK(moves.steps.size() == 3);
    CHECK(moves.plan.moved_kg == Approx(28.9));
    CHECK(can_be_carried_out(table, moves));
    CHECK(moves.groups[0].gain == Approx(moves.moves[0].gain + moves.moves[1].gain));
    CHECK(moves.harm_before - moves.harm_after == Approx(moves.groups[0].gain));
    for (const PotMove& move : moves.moves) {
        const bool is_pine = move.weight_kg > 20.0;
        CHECK(move.people == (is_pine ? 2 : 1));
    }
}

TEST_CASE("moves can be done in their order, and save what they say", "[placement][property]") {
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        const InventedGarden garden = random_garden(seed, 12, 14);
        const HarmTable table = garden.table("autumn");
        const MovePlan moves = moves_of(garden, table);
        CHECK(can_be_carried_out(table, moves));
        CHECK(static_cast<int>(moves.moves.size()) == moves.plan.lifts);
        double gain = 0.0;
        std::set<std::size_t> rows;
        for (const PotMove& move : moves.moves) {
            CHECK(rows.insert(move.row).second);
            CHECK(table.rows[move.row].may_move);
            CHECK(move.people * garden.scene.lifting.limit_kg >= move.weight_kg - 1e-9);
            CHECK_FALSE(move.reason.empty());
            gain += move.gain;
        }
        CHECK(moves.harm_before - moves.harm_after == within(gain, 1e-9));
        // Each group is worth its effort: else leaving it out would be a better plan.
        for (const MoveGroup& group : moves.groups) {
            const bool has_newcomer =
                std::any_of(group.rows.begin(), group.rows.end(), [&](std::size_t row) {
                    return !table.rows[row].start_spot ||
                           table.at(row, *table.rows[row].start_spot).refusal != Refusal::none;
                });
            if (!has_newcomer) CHECK(group.gain >= group.effort - 1e-5);
        }
    }
}

TEST_CASE("a pot too heavy for all hands does not move", "[placement][property]") {
    InventedGarden garden = maple_in_the_open_pine_under_the_net();
    garden.scene.lifting = {.people = 2, .limit_kg = 10.0};
    const HarmTable table = garden.table("midsummer");
    CHECK(moves_of(garden, table).moves.empty());
}
