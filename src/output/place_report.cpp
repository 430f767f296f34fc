#include "output/carry_words.h"
#include "output/plan_words.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/placement_report.h"
#include "sunfleck/output/text_table.h"
#include "sunfleck/placement/move_plan.h"
#include "sunfleck/placement/reasons.h"

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

namespace sunfleck::output {

namespace {

using placement::HarmTable;
using placement::PotState;
using placement::Standing;

std::string row_words(const PlaceAnswer& answer, std::size_t row) {
    return placement::pot_words(answer.period.scene, answer.period.table.rows[row]);
}

/// "58 of the 64 pots are content, 4 scorch, 2 stand too dark"; of those that stand somewhere.
std::string states_words(const HarmTable& table, const Standing& standing) {
    std::array<std::size_t, 4> counts{};
    std::size_t all = 0;
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        if (!standing[row]) continue;
        ++counts[static_cast<std::size_t>(placement::state_at(table, row, *standing[row]))];
        ++all;
    }
    const auto count_of = [&](PotState state) { return counts[static_cast<std::size_t>(state)]; };
    const std::size_t content = count_of(PotState::content);
    if (content == all) {
        return all == 1 ? "the one pot is content"
                        : "all " + std::to_string(all) + " pots are content";
    }
    std::string text = (content == 0 ? "none" : std::to_string(content)) + " of " +
                       count_words(all, "pot") + (content < 2 ? " is content" : " are content");
    struct Told {
        PotState state;
        const char* one;
        const char* many;
    };
    for (const Told& told : {Told{PotState::scorches, " scorches", " scorch"},
                             Told{PotState::gets_hot, " has a hot pot", " have hot pots"},
                             Told{PotState::too_dark, " stands too dark", " stand too dark"}}) {
        const std::size_t count = count_of(told.state);
        if (count > 0) text += ", " + std::to_string(count) + (count == 1 ? told.one : told.many);
    }
    return text;
}

bool any_in_harm(const HarmTable& table, const Standing& standing) {
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        if (!standing[row]) continue;
        if (placement::state_at(table, row, *standing[row]) != PotState::content) return true;
    }
    return false;
}

Standing standing_before(const HarmTable& table) {
    Standing standing;
    for (const placement::HarmRow& row : table.rows) standing.push_back(row.start_spot);
    return standing;
}

/// What there is to do, and what it brings.
std::string summary(const PlaceAnswer& answer, const placement::MovePlan& moves) {
    const HarmTable& table = answer.period.table;
    const std::string after = states_words(table, answer.plan.spot_of_row) + ".";
    if (moves.steps.empty()) {
        return (any_in_harm(table, answer.plan.spot_of_row) ? "No move is worth its effort: "
                                                            : "Nothing needs to move: ") +
               after;
    }
    const std::string before = states_words(table, standing_before(table)) + ".";
    std::string text = carry_totals_words(moves);
    if (moves.plan.lifts > 0 && before == after) return text + " Before and after, " + after;
    if (moves.plan.lifts > 0) text += " Now " + before;
    return text + " Then " + after;
}

/// "A04, A05 and B02".
std::string listed(const std::vector<std::string>& names) {
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (i > 0) text += i + 1 == names.size() ? " and " : ", ";
        text += names[i];
    }
    return text;
}

/// What would help the pots that the plan leaves in harm.
std::string help_words(const std::vector<std::string>& unsuited, bool any_scorches) {
    std::string text;
    if (!unsuited.empty()) text = paragraph("No spot here quite suits " + listed(unsuited) + ".");
    if (any_scorches) {
        text += paragraph(
                    "More shade in the hot hours would help what scorches: a net or a "
                    "denser one, laths, a light tree.") +
                "! Wind lifts nets. Brace the frame, and let the net come off before a gale.\n";
    }
    return text;
}

/// Pots that the plan leaves in harm, how they fare there, and what would help.
std::string not_content_text(const PlaceAnswer& answer) {
    const HarmTable& table = answer.period.table;
    const Standing& plan = answer.plan.spot_of_row;
    const std::vector<placement::Unsuited> unsuited = placement::unsuited_pots(table, plan);
    std::string text;
    bool any_scorches = false;
    std::vector<std::string> suited_nowhere;
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        const auto found = std::find_if(unsuited.begin(), unsuited.end(),
                                        [&](const auto& pot) { return pot.row == row; });
        std::string line = "! " + row_words(answer, row);
        if (!plan[row]) {
            line += ": There is no room for it.";
            if (found != unsuited.end()) line += " " + found->why;
        } else {
            const PotState state = placement::state_at(table, row, *plan[row]);
            if (state == PotState::content) continue;
            any_scorches = any_scorches || state == PotState::scorches;
            line += " at " + spot_id(table, plan[row]) + ". " +
                    placement::standing_words(table, row, *plan[row]);
            if (found != unsuited.end()) suited_nowhere.push_back(row_words(answer, row));
        }
        text += wrapped_text(line, 80, 2) + "\n";
    }
    if (text.empty()) return text;
    return "Not content even so:\n" + text + help_words(suited_nowhere, any_scorches) + "\n";
}

/// Rows that stay, by the spot they stand at.
std::vector<std::optional<std::size_t>> staying_rows(const PlaceAnswer& answer) {
    const HarmTable& table = answer.period.table;
    const Standing& plan = answer.plan.spot_of_row;
    std::vector<std::optional<std::size_t>> row_at(table.spots.size());
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        if (plan[row] && plan[row] == table.rows[row].start_spot) row_at[*plan[row]] = row;
    }
    return row_at;
}

/// "M07 B05 ×3 P01*": a batch's neighbours are told once, and who may not move has a star.
std::string codes_in_words(const PlaceAnswer& answer, const std::vector<std::size_t>& rows) {
    const auto code = [&](std::size_t row) {
        const placement::HarmRow& pot = answer.period.table.rows[row];
        return answer.period.scene.pots[pot.pot].label.id + (pot.may_move ? "" : "*");
    };
    std::string words;
    for (std::size_t first = 0, next = 0; first < rows.size(); first = next) {
        while (next < rows.size() && code(rows[next]) == code(rows[first])) ++next;
        words += (words.empty() ? "" : " ") + code(rows[first]);
        if (next - first > 1) words += " ×" + std::to_string(next - first);
    }
    return words;
}

/// Why some that stay have a star.
std::string star_words(const PlaceAnswer& answer) {
    bool any_pinned = false;
    bool any_heavy = false;
    for (const std::optional<std::size_t>& row : staying_rows(answer)) {
        if (!row || answer.period.table.rows[*row].may_move) continue;
        const bool is_pinned = answer.period.scene.pots[answer.period.table.rows[*row].pot].pinned;
        (is_pinned ? any_pinned : any_heavy) = true;
    }
    if (any_pinned && any_heavy) return "* pinned, or heavier than may be lifted here\n";
    if (any_heavy) return "* heavier than may be lifted here\n";
    return any_pinned ? "* pinned\n" : "";
}

/// Who stays, bench by bench, in the order of the spots.
std::string staying_text(const PlaceAnswer& answer) {
    const HarmTable& table = answer.period.table;
    const std::vector<std::optional<std::size_t>> row_at = staying_rows(answer);
    if (std::none_of(row_at.begin(), row_at.end(), [](const auto& row) { return row; })) return {};
    TextTable lines({{.heading = "Bench"},
                     {.heading = "These stay, in the order of the spots", .wraps = true}});
    for (std::size_t spot = 0; spot < table.spots.size();) {
        const std::string& bench = table.spots[spot].bench;
        std::vector<std::size_t> rows;
        for (; spot < table.spots.size() && table.spots[spot].bench == bench; ++spot) {
            if (row_at[spot]) rows.push_back(*row_at[spot]);
        }
        if (!rows.empty()) lines.add_row({bench, codes_in_words(answer, rows)});
    }
    return lines.text() + star_words(answer) + "\n";
}

std::string harm_words(const PlaceAnswer& answer) {
    const placement::SeasonPlan& plan = answer.plan;
    const double before = placement::harm_unmoved(answer.period.table, plan.spot_of_row);
    std::string text =
        "Over the period the pots lose " + growth_days_words(plan.harm_total) + " together";
    if (plan.lifts > 0) text += ", left as they stand " + growth_days_words(before);
    return text + ". " + gap_words(plan);
}

std::string free_spots_text(const PlaceAnswer& answer) {
    if (answer.plan.free_spots.empty()) return "No spot is free.\n";
    std::string text = "Free:";
    for (const std::size_t spot : answer.plan.free_spots) {
        text += " " + answer.period.table.spots[spot].id;
    }
    return wrapped_text(text + ".", 80, 2) + "\n";
}

}  // namespace

std::string place_text(const PlaceAnswer& answer) {
    const PlanPeriod& period = answer.period;
    const placement::MovePlan moves =
        placement::plan_moves(period.scene, period.table, answer.plan);
    std::string text = plan_opening(period, "where the pots should stand") +
                       paragraph(summary(answer, moves)) + carry_cautions(period, moves) + "\n";
    if (!moves.steps.empty()) {
        text += carry_table(period, moves) + "\n" + paragraph(carry_key_words(moves)) + "\n";
    }
    return text + not_content_text(answer) + staying_text(answer) + paragraph(harm_words(answer)) +
           free_spots_text(answer);
}

}  // namespace sunfleck::output
