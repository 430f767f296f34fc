#include "sunfleck/assign/move_order.h"

#include "assign/random_periods.h"
#include "sunfleck/base/require.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdint>
#include <set>
#include <vector>

using namespace sunfleck;
using namespace sunfleck::assign;
using namespace sunfleck::assign::testing;

namespace {

struct Carried {
    bool is_sound = true;
    std::size_t set_aside = 0;
};

/// Carries out the steps on a bench and looks whether every cell was free when it was taken.
Carried carry_out(const std::vector<Carry>& carries, const std::vector<CarryGroup>& groups) {
    std::set<std::int32_t> held;
    for (const Carry& carry : carries) {
        held.insert(carry.from_cells.begin(), carry.from_cells.end());
    }
    Carried carried;
    std::vector<int> state(carries.size(), 0);  // 0 stands, 1 aside, 2 arrived
    for (const CarryGroup& group : groups) {
        for (const auto& [index, step] : group.steps) {
            const Carry& carry = carries.at(static_cast<std::size_t>(index));
            int& now = state.at(static_cast<std::size_t>(index));
            if (now != (step == CarryStep::put_down ? 1 : 0)) carried.is_sound = false;
            if (now == 0) {
                for (const auto cell : carry.from_cells) held.erase(cell);
            }
            if (step == CarryStep::set_aside) {
                ++carried.set_aside;
                now = 1;
                continue;
            }
            for (const auto cell : carry.to_cells) {
                if (!held.insert(cell).second) carried.is_sound = false;
            }
            now = 2;
        }
    }
    if (std::ranges::any_of(state, [](int s) { return s != 2; })) carried.is_sound = false;
    return carried;
}

Carry unit(std::int32_t from, std::int32_t to, double weight = 1.0) {
    return {{from}, {to}, weight};
}

/// The fewest to put aside, by search over every order of steps of a small case.
std::size_t fewest_by_search(const std::vector<Carry>& carries) {
    std::size_t best = carries.size();
    const auto search = [&](auto&& self, std::set<std::int32_t> held, std::vector<int> state,
                            std::size_t aside) -> void {
        if (aside >= best) return;
        if (std::ranges::all_of(state, [](int s) { return s == 2; })) {
            best = aside;
            return;
        }
        // Whatever can go to its place may go at once: that never hurts.
        for (std::size_t c = 0; c < carries.size(); ++c) {
            if (state[c] == 2) continue;
            std::set<std::int32_t> without = held;
            if (state[c] == 0) {
                for (const auto cell : carries[c].from_cells) without.erase(cell);
            }
            if (std::ranges::any_of(carries[c].to_cells,
                                    [&](auto cell) { return without.contains(cell); })) {
                continue;
            }
            without.insert(carries[c].to_cells.begin(), carries[c].to_cells.end());
            state[c] = 2;
            return self(self, std::move(without), std::move(state), aside);
        }
        for (std::size_t c = 0; c < carries.size(); ++c) {
            if (state[c] != 0) continue;
            std::set<std::int32_t> without = held;
            for (const auto cell : carries[c].from_cells) without.erase(cell);
            std::vector<int> next = state;
            next[c] = 1;
            self(self, std::move(without), std::move(next), aside + 1);
        }
    };
    std::set<std::int32_t> held;
    for (const Carry& carry : carries) {
        held.insert(carry.from_cells.begin(), carry.from_cells.end());
    }
    search(search, held, std::vector<int>(carries.size(), 0), 0);
    return best;
}

}  // namespace

TEST_CASE("a swap sets the lighter aside and puts it down last", "[assign][property]") {
    const std::vector<Carry> carries = {unit(0, 1, 5.0), unit(1, 0, 2.0)};
    const auto groups = move_order(carries);
    REQUIRE(groups.size() == 1);
    CHECK(groups[0].kind == CarryGroupKind::swap);
    REQUIRE(groups[0].steps.size() == 3);
    CHECK(groups[0].steps[0].carry == 1);
    CHECK(groups[0].steps[0].step == CarryStep::set_aside);
    CHECK(groups[0].steps[1].carry == 0);
    CHECK(groups[0].steps[1].step == CarryStep::move);
    CHECK(groups[0].steps[2].carry == 1);
    CHECK(groups[0].steps[2].step == CarryStep::put_down);
}

TEST_CASE("a chain starts at its free end", "[assign][property]") {
    const std::vector<Carry> carries = {unit(0, 1), unit(1, 2), unit(2, 3)};
    const auto groups = move_order(carries);
    REQUIRE(groups.size() == 1);
    CHECK(groups[0].kind == CarryGroupKind::chain);
    std::vector<std::int32_t> order;
    for (const auto& step : groups[0].steps) order.push_back(step.carry);
    CHECK(order == std::vector<std::int32_t>{2, 1, 0});
    CHECK(carry_out(carries, groups).set_aside == 0);
}

TEST_CASE("swaps come before rings and rings before chains", "[assign][property]") {
    const std::vector<Carry> carries = {unit(0, 1),   unit(1, 2),   unit(10, 11), unit(11, 12),
                                        unit(12, 10), unit(20, 21), unit(21, 20), unit(30, 31)};
    const auto groups = move_order(carries);
    REQUIRE(groups.size() == 4);
    CHECK(groups[0].kind == CarryGroupKind::swap);
    CHECK(groups[1].kind == CarryGroupKind::ring);
    CHECK(groups[2].kind == CarryGroupKind::chain);
    CHECK(groups[3].steps.size() == 1);
    CHECK(carry_out(carries, groups).is_sound);
    CHECK(carry_out(carries, groups).set_aside == 2);
    CHECK(move_order({}).empty());
}

TEST_CASE("permuted single cells need one aside per ring", "[assign][property]") {
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const std::int32_t count = 1 + dice.below(40);
        std::vector<std::int32_t> to(static_cast<std::size_t>(count) + 5);
        for (std::size_t k = 0; k < to.size(); ++k) {
            to[k] = static_cast<std::int32_t>(k);
            std::swap(to[k],
                      to[static_cast<std::size_t>(dice.below(static_cast<std::int32_t>(k) + 1))]);
        }
        std::vector<Carry> carries;
        for (std::int32_t from = 0; from < count; ++from) {
            if (to[static_cast<std::size_t>(from)] == from) continue;
            carries.push_back(unit(from, to[static_cast<std::size_t>(from)], dice.unit()));
        }
        const auto groups = move_order(carries);
        const Carried carried = carry_out(carries, groups);
        CHECK(carried.is_sound);
        const auto rings = std::ranges::count_if(
            groups, [](const auto& group) { return group.kind != CarryGroupKind::chain; });
        CHECK(carried.set_aside == static_cast<std::size_t>(rings));
    }
}

TEST_CASE("knots of wide items are untied with the fewest aside", "[assign][property]") {
    for (std::uint64_t seed = 1; seed <= 120; ++seed) {
        CAPTURE(seed);
        PeriodProblem problem = random_period({.items = 6, .cells = 14, .widest = 3}, seed);
        const PeriodPlan before = solve_period(problem);
        Dice dice(seed + 500);
        for (Item& item : problem.items) {
            for (Choice& choice : item.choices) choice.cost = dice.unit();
        }
        const PeriodPlan after = solve_period(problem);
        if (!before.is_feasible || !after.is_feasible) continue;
        std::vector<Carry> carries;
        for (std::size_t i = 0; i < problem.items.size(); ++i) {
            const auto& choices = problem.items[i].choices;
            const auto from = static_cast<std::size_t>(before.choice_of_item[i]);
            const auto to = static_cast<std::size_t>(after.choice_of_item[i]);
            if (from != to) carries.push_back({choices[from].cells, choices[to].cells, 1.0});
        }
        const Carried carried = carry_out(carries, move_order(carries));
        CHECK(carried.is_sound);
        CHECK(carried.set_aside == fewest_by_search(carries));
    }
}

TEST_CASE("a long ring and a large knot end soundly", "[assign][property]") {
    std::vector<Carry> ring;
    for (std::int32_t k = 0; k < 300; ++k) ring.push_back(unit(k, (k + 1) % 300));
    CHECK(carry_out(ring, move_order(ring)).set_aside == 1);
    // Two rows of pairs that change over crosswise: every wide item waits for two others.
    std::vector<Carry> knot;
    for (std::int32_t k = 0; k < 30; ++k) {
        const std::int32_t to = 2 * ((k * 7 + 3) % 30) + 1;
        knot.push_back(
            {{2 * k, 2 * k + 1}, {std::min(to, (to + 1) % 60), std::max(to, (to + 1) % 60)}, 1.0});
    }
    CHECK(carry_out(knot, move_order(knot)).is_sound);
}

TEST_CASE("two carries to one cell are a bug of the caller", "[assign][property]") {
    const std::vector<Carry> to_same = {unit(0, 2), unit(1, 2)};
    CHECK_THROWS_AS(move_order(to_same), InternalError);
    const std::vector<Carry> from_same = {unit(0, 1), unit(0, 2)};
    CHECK_THROWS_AS(move_order(from_same), InternalError);
}
