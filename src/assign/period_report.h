#pragma once

#include "branch_search.h"
#include "choice_table.h"
#include "sunfleck/assign/period_plan.h"

namespace sunfleck::assign {

/// A proved plan in the words and costs of the problem that the table was made from; resources of
/// the table beyond the problem's own get no price in the report.
[[nodiscard]] PeriodPlan period_report(const PeriodProblem& problem, const ChoiceTable& table,
                                       const ProvedPlan& proved);

}  // namespace sunfleck::assign
