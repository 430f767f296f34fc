#include "output/plan_words.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/placement_report.h"
#include "sunfleck/output/text_table.h"
#include "sunfleck/placement/reasons.h"

#include <algorithm>
#include <array>

namespace sunfleck::output {

namespace {

using placement::HarmTable;
using placement::PotState;
using placement::Standing;

std::string from_words(const HarmTable& table, std::size_t row, const Standing& plan) {
    const std::optional<std::size_t> start = table.rows[row].start_spot;
    if (!start) return "new";
    return start == plan[row] ? "stays" : table.spots[*start].id;
}

std::string rows_text(const PlaceAnswer& answer) {
    const HarmTable& table = answer.period.table;
    const Standing& plan = answer.plan.spot_of_row;
    TextTable rows({{.heading = "Pot"},
                    {.heading = "Spot"},
                    {.heading = "From"},
                    {.heading = "Why", .wraps = true}});
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        rows.add_row({placement::pot_words(answer.period.scene, table.rows[row]),
                      plan[row] ? spot_id(table, plan[row]) : "none", from_words(table, row, plan),
                      plan[row] ? placement::place_reason(answer.period.scene, table, plan, row)
                                : "There is no room for it."});
    }
    return rows.text();
}

std::string unsuited_text(const PlaceAnswer& answer) {
    const HarmTable& table = answer.period.table;
    std::string text;
    for (const placement::Unsuited& pot :
         placement::unsuited_pots(table, answer.plan.spot_of_row)) {
        std::string line =
            "! " + placement::pot_words(answer.period.scene, table.rows[pot.row]) + ": ";
        if (pot.spot) line += "least bad at " + spot_id(table, pot.spot) + ". ";
        text += wrapped_text(line + pot.why, 80, 2) + "\n";
    }
    return text.empty() ? text : "Nothing here quite suits these.\n" + text + "\n";
}

/// "58 pots are content, 4 scorch, 2 stand too dark."
std::string states_words(const PlaceAnswer& answer) {
    const HarmTable& table = answer.period.table;
    std::array<std::size_t, 4> counts{};
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        const std::optional<std::size_t> spot = answer.plan.spot_of_row[row];
        if (!spot) continue;
        ++counts[static_cast<std::size_t>(placement::state_at(table, row, *spot))];
    }
    const auto count_of = [&](PotState state) { return counts[static_cast<std::size_t>(state)]; };
    std::string text = count_words(count_of(PotState::content), "pot") +
                       (count_of(PotState::content) == 1 ? " is content" : " are content");
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
    return text + ".";
}

std::string totals_words(const PlaceAnswer& answer) {
    const placement::SeasonPlan& plan = answer.plan;
    const double before = placement::harm_unmoved(answer.period.table, plan.spot_of_row);
    std::string text = states_words(answer) + " So the period costs all pots together " +
                       growth_days_words(plan.harm_total);
    if (plan.lifts > 0) {
        text += ", " + growth_days_words(before) + " as they stand now; it takes " +
                count_words(static_cast<std::size_t>(plan.lifts), "lift") + " of " +
                weight_words(plan.moved_kg) + " in all";
    }
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
    return plan_opening(answer.period, "where the pots should stand") + rows_text(answer) + "\n" +
           unsuited_text(answer) + paragraph(totals_words(answer)) + free_spots_text(answer);
}

}  // namespace sunfleck::output
