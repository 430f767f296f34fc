#include "sunfleck/placement/move_plan.h"

#include "sunfleck/assign/move_order.h"
#include "sunfleck/placement/reasons.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>

namespace sunfleck::placement {

namespace {

std::vector<std::int32_t> cells_of(const std::vector<std::size_t>& spots) {
    std::vector<std::int32_t> cells;
    cells.reserve(spots.size());
    for (const std::size_t spot : spots) cells.push_back(static_cast<std::int32_t>(spot));
    return cells;
}

/// Everything that comes to a spot: pots that move, and pots that stood nowhere.
struct Carries {
    std::vector<assign::Carry> carries;
    std::vector<std::size_t> rows;
};

Carries carries_of(const scene::Scene& scene, const HarmTable& table, const Standing& plan) {
    Carries all;
    for (std::size_t row = 0; row < plan.size(); ++row) {
        const std::optional<std::size_t> start = table.rows[row].start_spot;
        if (start == plan[row]) continue;
        assign::Carry carry;
        if (start) carry.from_cells = cells_of(table.covered(row, *start));
        if (plan[row]) carry.to_cells = cells_of(table.covered(row, *plan[row]));
        carry.weight = scene.pots[table.rows[row].pot].weight_kg;
        all.carries.push_back(std::move(carry));
        all.rows.push_back(row);
    }
    return all;
}

MoveStep::Kind kind_of(assign::CarryStep step) {
    switch (step) {
        case assign::CarryStep::move:
            return MoveStep::Kind::move;
        case assign::CarryStep::set_aside:
            return MoveStep::Kind::set_aside;
        case assign::CarryStep::put_down:
            return MoveStep::Kind::put_down;
    }
    return MoveStep::Kind::move;
}

MoveGroup::Kind kind_of(const assign::CarryGroup& group) {
    switch (group.kind) {
        case assign::CarryGroupKind::swap:
            return MoveGroup::Kind::swap;
        case assign::CarryGroupKind::ring:
            return MoveGroup::Kind::ring;
        case assign::CarryGroupKind::chain:
            return group.steps.size() == 1 ? MoveGroup::Kind::single : MoveGroup::Kind::chain;
    }
    return MoveGroup::Kind::single;
}

/// A group with its steps, before it has its place in the list.
struct OpenGroup {
    MoveGroup group;
    std::vector<MoveStep> steps;
    [[nodiscard]] double gain_a_lift() const {
        return (group.gain - group.effort) / static_cast<double>(group.rows.size());
    }
};

OpenGroup open_group(const HarmTable& table, const Standing& plan, const Carries& all,
                     const assign::CarryGroup& ordered) {
    OpenGroup open;
    open.group.kind = kind_of(ordered);
    for (const assign::OrderedCarry& step : ordered.steps) {
        const std::size_t row = all.rows[static_cast<std::size_t>(step.carry)];
        open.steps.push_back({.kind = kind_of(step.step), .row = row});
        auto& rows = open.group.rows;
        if (std::find(rows.begin(), rows.end(), row) != rows.end()) continue;
        rows.push_back(row);
        if (table.rows[row].start_spot && plan[row]) {
            open.group.gain += own_gain(table, row, *plan[row]);
            open.group.effort += table.rows[row].move_cost;
        }
    }
    return open;
}

/// The groups that save most for each pot lifted first; rounded, so that equal ones keep their
/// order everywhere.
void sort_by_gain(std::vector<OpenGroup>& groups) {
    std::stable_sort(groups.begin(), groups.end(), [](const OpenGroup& a, const OpenGroup& b) {
        return std::llround(a.gain_a_lift() * 1e6) > std::llround(b.gain_a_lift() * 1e6);
    });
}

PotMove pot_move(const scene::Scene& scene, const HarmTable& table, const Standing& plan,
                 std::size_t row) {
    const HarmRow& pot = table.rows[row];
    PotMove move;
    move.row = row;
    move.from_spot = *pot.start_spot;
    move.to_spot = *plan[row];
    move.weight_kg = scene.pots[pot.pot].weight_kg;
    move.people =
        std::clamp(static_cast<int>(std::ceil(move.weight_kg / scene.lifting.limit_kg - 1e-9)), 1,
                   std::max(1, scene.lifting.people));
    move.gain = own_gain(table, row, *plan[row]);
    move.reason = move_reason(scene, table, plan, row);
    return move;
}

}  // namespace

MovePlan plan_moves(const scene::Scene& scene, const HarmTable& table, SeasonPlan plan) {
    const Carries all = carries_of(scene, table, plan.spot_of_row);
    std::vector<OpenGroup> groups;
    for (const assign::CarryGroup& ordered : assign::move_order(all.carries)) {
        groups.push_back(open_group(table, plan.spot_of_row, all, ordered));
    }
    sort_by_gain(groups);

    MovePlan moves;
    moves.harm_before = harm_unmoved(table, plan.spot_of_row);
    moves.harm_after = plan.harm_total;
    for (OpenGroup& open : groups) {
        for (MoveStep& step : open.steps) {
            step.order = static_cast<int>(moves.steps.size()) + 1;
            step.group = moves.groups.size();
            moves.steps.push_back(step);
        }
        for (const std::size_t row : open.group.rows) {
            if (!plan.spot_of_row[row]) continue;
            if (table.rows[row].start_spot) {
                moves.moves.push_back(pot_move(scene, table, plan.spot_of_row, row));
            } else {
                moves.placed.push_back(row);
            }
        }
        moves.groups.push_back(std::move(open.group));
    }
    moves.plan = std::move(plan);
    return moves;
}

}  // namespace sunfleck::placement
