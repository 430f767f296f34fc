#pragma once

#include "choice_table.h"
#include "sunfleck/assign/year_plan.h"

#include <cstdint>
#include <vector>

namespace sunfleck::assign {

/// Choice per item, per period, as indices into that period's table.
using YearChoices = std::vector<std::vector<std::int32_t>>;

/// A year problem as one choice table per period, all in the same grains and with the same cost of
/// being left over, and which choices of neighbouring periods are the same place.
class YearTable {
  public:
    explicit YearTable(const YearProblem& problem);

    [[nodiscard]] const YearProblem& problem() const { return problem_; }
    [[nodiscard]] std::int32_t period_count() const { return problem_.period_count; }
    [[nodiscard]] std::int32_t item_count() const {
        return static_cast<std::int32_t>(problem_.items.size());
    }
    [[nodiscard]] const ChoiceTable& period(std::int32_t t) const { return periods_[at(t)]; }
    [[nodiscard]] double grain() const { return grain_; }
    [[nodiscard]] std::int64_t move_effort(std::int32_t item) const { return effort_[at(item)]; }
    /// Place of a choice; -1 for being left over.
    [[nodiscard]] std::int32_t place(std::int32_t t, std::int32_t choice) const {
        return place_[at(t)][at(choice)];
    }
    /// The choice of the next period at the same place, or -1. Left over stays left over.
    [[nodiscard]] std::int32_t stay(std::int32_t t, std::int32_t choice) const {
        return stay_[at(t)][at(choice)];
    }
    /// Grains of going from one place to another: 0 from nowhere, to nowhere, or to the same.
    [[nodiscard]] std::int64_t step(std::int32_t t, std::int32_t item, std::int32_t from,
                                    std::int32_t to) const;
    /// Where the item stood last before period t of the plan; -1 nowhere.
    [[nodiscard]] std::int32_t place_before(const YearChoices& plan, std::int32_t t,
                                            std::int32_t item) const;
    /// Grains of harm and moves of the whole plan.
    [[nodiscard]] std::int64_t cost(const YearChoices& plan) const;

  private:
    void add_period(std::int32_t t);
    void link_periods();

    const YearProblem& problem_;
    double grain_ = 1e-6;
    double greatest_total_ = 0.0;
    std::vector<ChoiceTable> periods_;
    std::vector<std::int64_t> effort_;
    std::vector<std::vector<std::int32_t>> place_;
    std::vector<std::vector<std::int32_t>> stay_;
};

}  // namespace sunfleck::assign
