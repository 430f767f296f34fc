#include "output/carry_words.h"

#include "output/plan_words.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/text_table.h"
#include "sunfleck/output/words.h"
#include "sunfleck/placement/harm_model.h"
#include "sunfleck/placement/reasons.h"

#include <algorithm>
#include <vector>

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

std::string step_to(const HarmTable& table, const MovePlan& moves, const MoveStep& step) {
    if (step.kind == MoveStep::Kind::set_aside) return "aside";
    return spot_id(table, moves.plan.spot_of_row[step.row]);
}

std::string gain_words(double gain) {
    const std::string figure = fixed_words(gain, 1);
    return gain > 0.0 && figure != "0.0" ? "+" + figure : figure;
}

std::string step_reason(const PlanPeriod& period, const MovePlan& moves, const MoveStep& step) {
    if (const PotMove* move = move_of(moves, step.row)) return move->reason;
    return placement::place_reason(period.scene, period.table, moves.plan.spot_of_row, step.row);
}

std::vector<std::string> step_row(const PlanPeriod& period, const MovePlan& moves,
                                  const MoveStep& step, const std::string& bracket) {
    const placement::HarmRow& pot = period.table.rows[step.row];
    std::vector<std::string> cells{
        std::to_string(step.order) + bracket, placement::pot_words(period.scene, pot),
        step_from(period.table, step), step_to(period.table, moves, step)};
    if (step.kind == MoveStep::Kind::put_down) {
        cells.insert(cells.end(), {"", "", "Down again."});
        return cells;
    }
    const PotMove* move = move_of(moves, step.row);
    const double weight_kg = period.scene.pots[pot.pot].weight_kg;
    cells.push_back(weight_words(weight_kg) + (move != nullptr && move->people > 1 ? " II" : ""));
    cells.push_back(move != nullptr ? gain_words(move->gain) : "");
    cells.push_back(step_reason(period, moves, step));
    return cells;
}

/// Whether any step waits for another.
bool has_joined_steps(const MovePlan& moves) {
    return moves.steps.size() > moves.groups.size();
}

/// The part of a group's bracket that stands beside a step.
std::string bracket_at(const std::vector<MoveStep>& steps, std::size_t at) {
    const bool joins_last = at > 0 && steps[at - 1].group == steps[at].group;
    const bool joins_next = at + 1 < steps.size() && steps[at + 1].group == steps[at].group;
    if (joins_last && joins_next) return " │";
    if (joins_last) return " ┘";
    return joins_next ? " ┐" : "  ";
}

/// "The first 6 bring four fifths of the gain." Empty when that is all of them.
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
    const std::string first =
        lifts == 1 ? "The first brings" : "The first " + std::to_string(lifts) + " bring";
    return " " + first + " four fifths of the gain.";
}

double heaviest_lift_kg(const MovePlan& moves) {
    double heaviest_kg = 0.0;
    for (const PotMove& move : moves.moves) heaviest_kg = std::max(heaviest_kg, move.weight_kg);
    return heaviest_kg;
}

/// A pot that stood nowhere is carried, too.
double heaviest_kg(const PlanPeriod& period, const MovePlan& moves) {
    double heaviest = heaviest_lift_kg(moves);
    for (const std::size_t row : moves.placed) {
        heaviest = std::max(heaviest, period.scene.pots[period.table.rows[row].pot].weight_kg);
    }
    return heaviest;
}

}  // namespace

std::string carry_table(const PlanPeriod& period, const MovePlan& moves) {
    TextTable rows({{.heading = "", .align = Align::right},
                    {.heading = "Pot"},
                    {.heading = "From"},
                    {.heading = "To"},
                    {.heading = "Weight", .align = Align::right},
                    {.heading = "Gain", .align = Align::right},
                    {.heading = "Why", .wraps = true}});
    const bool has_brackets = has_joined_steps(moves);
    for (std::size_t at = 0; at < moves.steps.size(); ++at) {
        const std::string bracket = has_brackets ? bracket_at(moves.steps, at) : "";
        rows.add_row(step_row(period, moves, moves.steps[at], bracket));
    }
    return rows.text();
}

std::string carry_totals_words(const MovePlan& moves) {
    const auto lifts = static_cast<std::size_t>(moves.plan.lifts);
    std::string text;
    if (lifts > 0) {
        text = count_words(lifts, "lift") + ", " + weight_words(moves.plan.moved_kg);
        text += lifts == 1 ? "."
                           : " in all, the heaviest " + weight_words(heaviest_lift_kg(moves)) + ".";
        text += first_lifts_words(moves);
    }
    if (!moves.placed.empty()) {
        text += (text.empty() ? "" : " ") + count_words(moves.placed.size(), "new pot") +
                (moves.placed.size() == 1 ? " gets a place." : " get a place.");
    }
    return text;
}

std::string carry_key_words(const MovePlan& moves) {
    const bool has_aside =
        std::any_of(moves.steps.begin(), moves.steps.end(),
                    [](const MoveStep& step) { return step.kind == MoveStep::Kind::set_aside; });
    const bool has_two = std::any_of(moves.moves.begin(), moves.moves.end(),
                                     [](const PotMove& move) { return move.people > 1; });
    std::string text;
    if (has_joined_steps(moves)) text += "Steps joined by a bracket go together. ";
    if (moves.groups.size() > 1) text += "The best come first; the rest may wait. ";
    if (has_aside) text += "Aside: set down out of the way until its spot is free. ";
    if (has_two) text += "II: two people. ";
    return text + "Gain: growth days saved; one is what a tree grows on one good day.";
}

std::string carry_cautions(const PlanPeriod& period, const MovePlan& moves) {
    const double heaviest = heaviest_kg(period, moves);
    std::string text;
    if (heaviest >= heavy_kg) {
        text += "! " + weight_words(heaviest) + ": two people or a trolley.\n";
    }
    const bool is_hot =
        placement::day_factors(period.scene.site, period.table.dates.from).heat >= 0.5;
    if (is_hot && !moves.steps.empty()) {
        text += "! Carry before " + rounded_clock_words_at(period.hot_on_first.from, period.zone) +
                " or in the evening, not in the hot hours.\n";
    }
    return text;
}

}  // namespace sunfleck::output
