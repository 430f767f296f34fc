#include "sunfleck/assign/period_plan.h"

#include "branch_search.h"
#include "choice_table.h"
#include "period_report.h"

namespace sunfleck::assign {

PeriodPlan solve_period(const PeriodProblem& problem) {
    return solve_period(problem, {});
}

PeriodPlan solve_period(const PeriodProblem& problem, const PeriodEffort& effort) {
    const ChoiceTable table = choice_table(problem);
    const ProvedPlan proved = least_cost_plan(table, {effort.prices, effort.branching});
    return period_report(problem, table, proved);
}

}  // namespace sunfleck::assign
