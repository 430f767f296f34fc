#pragma once

#include "sunfleck/output/placement_report.h"
#include "sunfleck/placement/move_plan.h"

#include <string>

/// What is carried, as `sunfleck place` and `sunfleck moves` tell it.
namespace sunfleck::output {

/// The steps in order: from, to, weight, gain and reason. Steps of one group are joined by a
/// bracket beside their numbers.
[[nodiscard]] std::string carry_table(const PlanPeriod& period, const placement::MovePlan& moves);

/// "20 lifts, 35 kg in all, the heaviest 3.2 kg." and after how many of them most is won.
[[nodiscard]] std::string carry_totals_words(const placement::MovePlan& moves);

/// How to read the table: brackets, "aside", the unit of gain.
[[nodiscard]] std::string carry_key_words(const placement::MovePlan& moves);

}  // namespace sunfleck::output
