#include "output/carry_words.h"
#include "output/plan_words.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/placement_report.h"
#include "sunfleck/output/words.h"

namespace sunfleck::output {

namespace {

std::string harm_words(const MovesAnswer& answer) {
    const placement::MovePlan& moves = answer.moves;
    return "Left as they stand, the pots lose " + growth_days_words(moves.harm_before) + " in " +
           season_words(answer.period.table.season) + "; moved so, " +
           growth_days_words(moves.harm_after) + ". " + gap_words(moves.plan);
}

}  // namespace

std::string moves_text(const MovesAnswer& answer) {
    const PlanPeriod& period = answer.period;
    std::string text = plan_opening(
        period, "what to carry, from how the pots stand in " + season_words(answer.from_season));
    if (answer.moves.steps.empty()) {
        return text + paragraph("Nothing needs to move. " + gap_words(answer.moves.plan));
    }
    return text + paragraph(carry_totals_words(answer.moves)) +
           carry_cautions(period, answer.moves) + "\n" + carry_table(period, answer.moves) + "\n" +
           paragraph(carry_key_words(answer.moves)) + paragraph(harm_words(answer));
}

}  // namespace sunfleck::output
