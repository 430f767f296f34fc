#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/document/command.h"
#include "sunfleck/document/document.h"
#include "sunfleck/placement/harm_table.h"
#include "sunfleck/placement/move_plan.h"
#include "sunfleck/scene/scene.h"

#include <cstddef>
#include <string>
#include <vector>

namespace sunfleck::window {

/// Which plan is asked for.
struct PlanAsked {
    std::size_t revision = 0;  ///< of the document
    std::string season;
    int year = 0;
    bool operator==(const PlanAsked&) const = default;
};

/// One pot that the plan moves, or gives a place that it did not have.
struct PlannedMove {
    std::size_t row = 0;  ///< of the table
    std::size_t to = 0;   ///< spot
    std::string reason;
};

/// The plan of a season from where the pots stand now.
struct PlanAnswers {
    PlanAsked asked;
    placement::HarmTable table;
    placement::MovePlan carried;
    std::vector<PlannedMove> moves;  ///< in the order to carry them, then those without a place
    std::string cautions;            ///< a line each
    std::size_t in_harm_now = 0;
    std::size_t in_harm_after = 0;

    [[nodiscard]] const placement::SeasonPlan& plan() const { return carried.plan; }
};

/// Fails with the code "nothing_to_plan" when there are no pots or no spots.
[[nodiscard]] Result<PlanAnswers> plan_answers(const scene::Scene& scene, const PlanAsked& asked,
                                               int thread_count);

/// Makes the plan's places the pots' own, as one command.
[[nodiscard]] document::Command take_plan(const document::Document& document,
                                          const PlanAnswers& answers);

}  // namespace sunfleck::window
