#include "sunfleck/placement/move_plan.h"

#include "placement/invented_garden.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <set>

using namespace sunfleck;
using namespace sunfleck::placement;
using namespace sunfleck::placement_test;

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

}  // namespace

TEST_CASE("two pots that want each other's spot swap", "[placement][property]") {
    InventedGarden garden;
    garden.add_spot(open_sun());
    garden.add_spot(net);
    make_small_maple(garden.add_pot("M07", "A-1"));
    make_large_pine(garden.add_pot("P01", "A-2"));
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
        CHECK(moves.harm_before - moves.harm_after == Approx(gain).margin(1e-9));
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
    InventedGarden garden;
    garden.add_spot(open_sun());
    garden.add_spot(net);
    make_small_maple(garden.add_pot("M07", "A-1"));
    make_large_pine(garden.add_pot("P01", "A-2"));
    garden.scene.lifting = {.people = 2, .limit_kg = 10.0};
    const HarmTable table = garden.table("midsummer");
    CHECK(moves_of(garden, table).moves.empty());
}
