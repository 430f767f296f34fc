#include "output/plan_words.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/placement_report.h"
#include "sunfleck/output/text_table.h"
#include "sunfleck/output/words.h"
#include "sunfleck/placement/harm_model.h"
#include "sunfleck/placement/reasons.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::output {

namespace {

using placement::HarmTable;
using placement::MovePlan;
using placement::MoveStep;
using placement::PotMove;

/// From here on two people or a trolley (common practice, no source).
constexpr double heavy_kg = 15.0;
/// The part of the gain that is worth knowing when the list is long.
constexpr double most_of_the_gain = 0.8;

const PotMove* move_of(const MovePlan& moves, std::size_t row) {
    const auto found = std::find_if(moves.moves.begin(), moves.moves.end(),
                                    [&](const PotMove& move) { return move.row == row; });
    return found == moves.moves.end() ? nullptr : &*found;
}

std::string step_from(const HarmTable& table, const MoveStep& step) {
    if (step.kind == MoveStep::Kind::put_down) return "aside";
    const std::optional<std::size_t> start = table.rows[step.row].start_spot;
    return start ? table.spots[*start].id : "new";
}

std::string step_to(const MovesAnswer& answer, const MoveStep& step) {
    if (step.kind == MoveStep::Kind::set_aside) return "aside";
    return spot_id(answer.period.table, answer.moves.plan.spot_of_row[step.row]);
}

std::string gain_words(double gain) {
    const std::string figure = fixed_words(gain, 1);
    return gain > 0.0 && figure != "0.0" ? "+" + figure : figure;
}

std::string step_reason(const MovesAnswer& answer, const MoveStep& step) {
    if (const PotMove* move = move_of(answer.moves, step.row)) return move->reason;
    return placement::place_reason(answer.period.scene, answer.period.table,
                                   answer.moves.plan.spot_of_row, step.row);
}

std::vector<std::string> step_row(const MovesAnswer& answer, const MoveStep& step) {
    const placement::HarmRow& pot = answer.period.table.rows[step.row];
    std::vector<std::string> cells{std::to_string(step.order),
                                   placement::pot_words(answer.period.scene, pot),
                                   step_from(answer.period.table, step), step_to(answer, step)};
    if (step.kind == MoveStep::Kind::put_down) {
        cells.insert(cells.end(), {"", "", "Down again."});
        return cells;
    }
    const PotMove* move = move_of(answer.moves, step.row);
    const double weight_kg = answer.period.scene.pots[pot.pot].weight_kg;
    cells.push_back(weight_words(weight_kg) + (move != nullptr && move->people > 1 ? " II" : ""));
    cells.push_back(move != nullptr ? gain_words(move->gain) : "");
    cells.push_back(step_reason(answer, step));
    return cells;
}

std::string steps_text(const MovesAnswer& answer) {
    TextTable rows({{.heading = "", .align = Align::right},
                    {.heading = "Pot"},
                    {.heading = "From"},
                    {.heading = "To"},
                    {.heading = "Weight", .align = Align::right},
                    {.heading = "Gain", .align = Align::right},
                    {.heading = "Why", .wraps = true}});
    std::size_t group = 0;
    for (const MoveStep& step : answer.moves.steps) {
        if (step.group != group) rows.add_rule();
        group = step.group;
        rows.add_row(step_row(answer, step));
    }
    return rows.text();
}

/// "The first 6 lifts bring four fifths of that." Empty when that is all of them.
std::string first_lifts_words(const MovePlan& moves) {
    double total = 0.0;
    for (const placement::MoveGroup& group : moves.groups) total += group.gain;
    double gained = 0.0;
    std::size_t lifts = 0;
    for (const placement::MoveGroup& group : moves.groups) {
        gained += group.gain;
        lifts += group.rows.size();
        if (gained >= most_of_the_gain * total) break;
    }
    if (total <= 0.0 || lifts + 1 >= moves.moves.size()) return {};
    return " The first " + std::to_string(lifts) + " bring four fifths of that.";
}

std::string totals_words(const MovesAnswer& answer) {
    const MovePlan& moves = answer.moves;
    const std::string& season = answer.period.table.season;
    return "Left as they stand, the pots lose " + growth_days_words(moves.harm_before) + " in " +
           season + "; moved so, " + growth_days_words(moves.harm_after) + ", for " +
           count_words(static_cast<std::size_t>(moves.plan.lifts), "lift") + " of " +
           weight_words(moves.plan.moved_kg) + " in all." + first_lifts_words(moves) + " " +
           gap_words(moves.plan);
}

std::string groups_words(const MovePlan& moves) {
    const bool has_more = moves.groups.size() > 1;
    const bool has_aside =
        std::any_of(moves.steps.begin(), moves.steps.end(),
                    [](const MoveStep& step) { return step.kind == MoveStep::Kind::set_aside; });
    std::string text;
    if (has_more) text += "What stands between two lines goes together; the rest may wait. ";
    if (has_aside) text += "Aside: set down out of the way until its spot is free. ";
    return text + "Gain is in growth days.";
}

std::string cautions(const MovesAnswer& answer) {
    double heaviest_kg = 0.0;
    for (const PotMove& move : answer.moves.moves) {
        heaviest_kg = std::max(heaviest_kg, move.weight_kg);
    }
    std::string text;
    if (heaviest_kg >= heavy_kg) {
        text += "! " + weight_words(heaviest_kg) + ": two people or a trolley.\n";
    }
    const Date first = answer.period.table.dates.from;
    if (placement::day_factors(answer.period.scene.site, first).heat >= 0.5) {
        text += "! Carry before " +
                rounded_clock_words_at(answer.period.hot_on_first.from, answer.period.zone) +
                " or in the evening, not in the hot hours.\n";
    }
    return text;
}

}  // namespace

std::string moves_text(const MovesAnswer& answer) {
    std::string text = plan_opening(
        answer.period, "what to carry, from how the pots stand in " + answer.from_season);
    if (answer.moves.steps.empty()) {
        return text + paragraph("Nothing needs to move. " + gap_words(answer.moves.plan));
    }
    return text + steps_text(answer) + "\n" + paragraph(totals_words(answer)) +
           paragraph(groups_words(answer.moves)) + cautions(answer);
}

}  // namespace sunfleck::output
