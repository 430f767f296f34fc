#pragma once

#include "sunfleck/assign/period_plan.h"
#include "sunfleck/placement/harm_table.h"
#include "sunfleck/placement/season_plan.h"
#include "sunfleck/scene/scene.h"

#include <cstddef>
#include <vector>

namespace sunfleck::placement {

/// A period as plain arrays for the solver: items are rows, cells are spots.
class PlanProblem {
  public:
    PlanProblem(const scene::Scene& scene, const HarmTable& table, const PlanOptions& options);

    struct Answer {
        Standing standing;
        double bound = 0.0;  ///< on the objective with `lift_price` a lift
        bool is_optimal = false;
    };
    /// The plan that makes objective + lift_price x lifts least. Where there is no room for all,
    /// as few as possible are left out, and those that stand nowhere yet before the others.
    [[nodiscard]] Answer solve(double lift_price) const;

    /// Whether pots may stand so: every spot allowed, none covered twice, no tier overloaded.
    [[nodiscard]] bool is_possible(const Standing& standing) const;
    [[nodiscard]] const HarmTable& table() const { return *table_; }
    /// The spots that the problem lets a row choose from.
    [[nodiscard]] const std::vector<std::size_t>& choices_of(std::size_t row) const {
        return spots_of_row_[row];
    }

  private:
    [[nodiscard]] std::vector<std::size_t> allowed_spots(std::size_t row,
                                                         const PlanOptions& options) const;
    [[nodiscard]] Answer solve_priced(double lift_price, double newcomer_price) const;
    [[nodiscard]] bool leaves_out_a_standing_pot(const Standing& standing) const;

    const HarmTable* table_;
    std::vector<std::vector<std::size_t>> spots_of_row_;  ///< by choice
    std::vector<double> weight_kg_;                       ///< by row
    std::vector<std::int32_t> load_of_spot_;              ///< -1: unlimited
    assign::PeriodProblem problem_;
};

/// More than any two plans can differ by in what they cost.
[[nodiscard]] double unpayable_price(const PlanProblem& problem);
/// Pots that leave the spot where they stood.
[[nodiscard]] int lifts_of(const HarmTable& table, const Standing& standing);
/// Harm and moving effort of all placed pots.
[[nodiscard]] double objective_of(const HarmTable& table, const Standing& standing);

}  // namespace sunfleck::placement
