#pragma once

#include "sunfleck/placement/harm_table.h"
#include "sunfleck/placement/season_plan.h"
#include "sunfleck/scene/scene.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace sunfleck::placement {

/// One thing to do. A pot that has to wait on the ground gives two: lifted aside, then put down.
struct MoveStep {
    enum class Kind { move, set_aside, put_down };
    Kind kind = Kind::move;
    int order = 0;          ///< from 1, over all steps
    std::size_t group = 0;  ///< index into MovePlan::groups
    std::size_t row = 0;
};

/// Moves that wait for each other: a swap, a ring, a chain into a free spot, or one alone.
struct MoveGroup {
    enum class Kind { single, swap, chain, ring };
    Kind kind = Kind::single;
    std::vector<std::size_t> rows;  ///< in the order of their first step
    double gain = 0.0;              ///< growth days that all of them save together
    double effort = 0.0;            ///< growth days that carrying them is counted
};

/// One pot's way.
struct PotMove {
    std::size_t row = 0;
    std::size_t from_spot = 0;
    std::size_t to_spot = 0;
    double weight_kg = 0.0;
    int people = 1;     ///< hands needed at the scene's limit for one person
    double gain = 0.0;  ///< growth days it saves itself; below 0 where it makes room
    std::string reason;
};

/// What to carry from how the pots stand to a season's plan.
struct MovePlan {
    SeasonPlan plan;
    double harm_before = 0.0;         ///< of the season, were nothing moved
    double harm_after = 0.0;          ///< of the season, as planned, jumps included
    std::vector<PotMove> moves;       ///< in the order of their first step
    std::vector<MoveGroup> groups;    ///< the one that gains most for each lift first
    std::vector<MoveStep> steps;      ///< so that a spot is free when its pot comes
    std::vector<std::size_t> placed;  ///< rows that stood nowhere and get a place
};

/// The moves of a plan made from the table. Groups do not touch each other, so any of them may be
/// left out; they come in the order of what they save for each pot lifted.
[[nodiscard]] MovePlan plan_moves(const scene::Scene& scene, const HarmTable& table,
                                  SeasonPlan plan);

}  // namespace sunfleck::placement
