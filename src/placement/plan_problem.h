#pragma once

#include "sunfleck/assign/period_plan.h"
#include "sunfleck/placement/harm_table.h"
#include "sunfleck/placement/season_plan.h"
#include "sunfleck/scene/scene.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace sunfleck::placement {

/// A period as plain arrays for the solver: items are rows, cells are spots.
class PlanProblem {
  public:
    PlanProblem(const scene::Scene& scene, const HarmTable& table, const PlanOptions& options);

    struct Answer {
        Standing standing;
        double bound = 0.0;  ///< on the objective
        bool is_optimal = false;
    };
    /// The plan with the least objective, within options.lifts lifts where they are given. Where
    /// there is no room for all, as few as possible are left out, and those that stand nowhere yet
    /// before the others. A pot stays on a spot ruled out by its owner only for want of lifts.
    [[nodiscard]] Answer solve() const;

  private:
    [[nodiscard]] std::vector<std::size_t> allowed_spots(std::size_t row,
                                                         const PlanOptions& options) const;
    [[nodiscard]] assign::Choice choice_at(std::size_t row, std::size_t spot) const;
    [[nodiscard]] Answer solve(double newcomer_price) const;
    [[nodiscard]] assign::PeriodPlan plan_within(const assign::PeriodProblem& problem,
                                                 int lifts) const;
    [[nodiscard]] bool is_lift(std::size_t row, std::int32_t choice) const;
    [[nodiscard]] double unpayable_price() const;

    const HarmTable* table_;
    std::optional<int> lifts_;
    std::vector<std::vector<std::size_t>> spots_of_row_;  ///< by choice
    std::vector<std::int32_t> load_of_spot_;              ///< -1: unlimited
    assign::PeriodProblem problem_;
};

/// Harm and moving effort of all placed pots.
[[nodiscard]] double objective_of(const HarmTable& table, const Standing& standing);

}  // namespace sunfleck::placement
