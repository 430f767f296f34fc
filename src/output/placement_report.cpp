#include "sunfleck/output/placement_report.h"

#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/text_table.h"

#include <algorithm>

namespace sunfleck::output {
namespace {

using placement::HarmTable;
using placement::MovePlan;

// A pot so heavy that its carrying is worth a word (common practice, no source: two people or a
// trolley from about 15 kg).
constexpr double heavy_kg = 15.0;

std::string growth_days(double days) {
    return fixed_words(days, 1) + " growth days";
}

std::string spot_name(const HarmTable& table, const std::optional<std::size_t>& spot) {
    return spot ? table.spots[*spot].id : std::string("no room");
}

std::string gap_words(const placement::SeasonPlan& plan) {
    if (plan.is_optimal) return "No plan does better: this is proved.";
    return "At most " + percent_words(std::max(plan.gap_fraction(), 0.005)) +
           " better could be possible.";
}

std::string paragraph(const std::string& text) {
    return wrapped_text(text) + "\n";
}

std::string unsuited_text(const PlaceAnswer& answer) {
    std::string text;
    for (const auto& unsuited : placement::unsuited_pots(answer.table, answer.plan.spot_of_row)) {
        text += wrapped_text(
                    "! " + placement::pot_words(answer.scene, answer.table.rows[unsuited.row]) +
                        (unsuited.spot ? ", least bad on " + spot_name(answer.table, unsuited.spot)
                                       : std::string()) +
                        ". " + unsuited.why,
                    80, 2) +
                "\n";
    }
    return text.empty() ? text : "\nNothing in the garden quite suits these:\n" + text;
}

std::string cautions(const MovesAnswer& answer) {
    std::string text;
    double heaviest_kg = 0.0;
    for (const auto& move : answer.moves.moves) heaviest_kg = std::max(heaviest_kg, move.weight_kg);
    if (heaviest_kg >= heavy_kg) {
        text += "! " + weight_words(heaviest_kg) + ": two people or a trolley.\n";
    }
    if (!answer.moves.moves.empty()) text += "! Carry in the cool of the day.\n";
    return text;
}

std::string step_words(const placement::MoveStep& step, const MovesAnswer& answer) {
    const auto& moves = answer.moves.moves;
    const auto found = std::find_if(moves.begin(), moves.end(),
                                    [&](const auto& move) { return move.row == step.row; });
    if (found == moves.end()) return "";
    const std::string from = answer.table.spots[found->from_spot].id;
    const std::string to = answer.table.spots[found->to_spot].id;
    switch (step.kind) {
        case placement::MoveStep::Kind::move:
            return from + " → " + to;
        case placement::MoveStep::Kind::set_aside:
            return from + " → aside";
        case placement::MoveStep::Kind::put_down:
            return "aside → " + to;
    }
    return "";
}

std::string reason_of(const placement::MoveStep& step, const MovesAnswer& answer) {
    if (step.kind == placement::MoveStep::Kind::put_down) return "";
    for (const auto& move : answer.moves.moves) {
        if (move.row == step.row) return move.reason;
    }
    return "";
}

std::string carry_words(const placement::MoveStep& step, const MovesAnswer& answer) {
    for (const auto& move : answer.moves.moves) {
        if (move.row != step.row) continue;
        return weight_words(move.weight_kg) + (move.people > 1 ? " II" : "");
    }
    return "";
}

}  // namespace

std::string place_text(const PlaceAnswer& answer) {
    const HarmTable& table = answer.table;
    std::string text = paragraph(answer.scene.site.name + ": where the pots should stand, " +
                                 (table.season.empty() ? "" : table.season + ", ") +
                                 date_range_words(table.dates.from, table.dates.to));
    text += "\n";
    TextTable rows({{.heading = "pot"},
                    {.heading = "spot"},
                    {.heading = "now"},
                    {.heading = "why", .wraps = true}});
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        const auto spot = answer.plan.spot_of_row[row];
        const auto start = table.rows[row].start_spot;
        const std::string now = start == spot ? "stays" : start ? table.spots[*start].id : "new";
        rows.add_row({placement::pot_words(answer.scene, table.rows[row]), spot_name(table, spot),
                      now,
                      placement::place_reason(answer.scene, table, answer.plan.spot_of_row, row)});
    }
    text += rows.text();
    text += unsuited_text(answer);
    text +=
        "\n" + paragraph("The season costs all pots together " +
                         growth_days(answer.plan.harm_total) + " standing so, after " +
                         count_words(static_cast<std::size_t>(answer.plan.lifts), "move") + " (" +
                         weight_words(answer.plan.moved_kg) + "). " + gap_words(answer.plan));
    text += paragraph("From direct sun of clear days; times are good to about ±15 min.");
    return text;
}

std::string moves_text(const MovesAnswer& answer) {
    const MovePlan& moves = answer.moves;
    std::string text = paragraph(answer.scene.site.name + ": what moves from " +
                                 answer.from_season + " to " + answer.table.season + ", " +
                                 date_range_words(answer.table.dates.from, answer.table.dates.to));
    text += "\n";
    if (moves.moves.empty()) return text + "Nothing needs to move.\n";
    TextTable rows({{.heading = "", .align = Align::right},
                    {.heading = "pot"},
                    {.heading = "from, to"},
                    {.heading = "weight", .align = Align::right},
                    {.heading = "why", .wraps = true}});
    std::size_t group = moves.steps.empty() ? 0 : moves.steps.front().group;
    for (const auto& step : moves.steps) {
        if (step.group != group) rows.add_rule();
        group = step.group;
        rows.add_row({std::to_string(step.order),
                      placement::pot_words(answer.scene, answer.table.rows[step.row]),
                      step_words(step, answer), carry_words(step, answer),
                      reason_of(step, answer)});
    }
    text += rows.text();
    text +=
        "\n" + paragraph("Left as they stand, the pots lose " + growth_days(moves.harm_before) +
                         " in the season; moved so, " + growth_days(moves.harm_after) + ", for " +
                         count_words(static_cast<std::size_t>(moves.plan.lifts), "lift") + " and " +
                         weight_words(moves.plan.moved_kg) + ". " + gap_words(moves.plan));
    text += cautions(answer);
    return text;
}

}  // namespace sunfleck::output
