#include "output/plan_words.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/light/clear_sky.h"
#include "sunfleck/output/placement_report.h"
#include "sunfleck/output/text_table.h"
#include "sunfleck/placement/reasons.h"

#include <cmath>

namespace sunfleck::output {

namespace {

using placement::HarmCell;

std::string light_words(const HarmCell& cell) {
    return fixed_words(cell.figures.light_kwh_m2 * 1000.0 * light::dli_mol_per_wh, 0) + " mol";
}

void add_figures(const HarmCell& here, const HarmCell& there, TextTable& rows) {
    const auto minutes = [&](const char* what, double placement::SpotFigures::*figure) {
        rows.add_row(
            {what, duration_words(here.figures.*figure), duration_words(there.figures.*figure)});
    };
    minutes("full sun in the day", &placement::SpotFigures::full_min);
    minutes("filtered", &placement::SpotFigures::filtered_min);
    minutes("full sun in the hot hours", &placement::SpotFigures::hot_full_min);
    if (here.figures.west_wall_full_min && there.figures.west_wall_full_min) {
        rows.add_row({"full sun on the pot's west side",
                      duration_words(*here.figures.west_wall_full_min),
                      duration_words(*there.figures.west_wall_full_min)});
    }
    rows.add_row({"light in a clear day", light_words(here), light_words(there)});
}

void add_harm(const HarmCell& here, const HarmCell& there, TextTable& rows) {
    const auto part = [&](const char* what, double placement::HarmParts::*value) {
        rows.add_row({what, fixed_words(here.parts.*value, 1), fixed_words(there.parts.*value, 1)});
    };
    part("growth days lost to hot sun", &placement::HarmParts::hot_sun);
    part("  to too little light", &placement::HarmParts::light_deficit);
    part("  to a hot pot", &placement::HarmParts::pot_wall);
    part("  to the step in light", &placement::HarmParts::jump);
    rows.add_row(
        {"  in all", fixed_words(here.parts.total(), 1), fixed_words(there.parts.total(), 1)});
}

/// "M07 itself loses 56.0": who loses or gains how many growth days.
std::string change_words(const std::string& who, bool is_many, double change) {
    const std::string figure = fixed_words(std::abs(change), 1);
    if (figure == "0.0") return who + (is_many ? " lose nothing" : " loses nothing");
    const std::string verb = change > 0.0 ? "lose" : "gain";
    return who + " " + verb + (is_many ? " " : "s ") + figure;
}

std::string lifts_words(int change) {
    if (change == 0) return "as many lifts";
    return count_words(static_cast<std::size_t>(std::abs(change)), "lift") +
           (change > 0 ? " more" : " fewer");
}

std::string verdict(const WhyAnswer& answer) {
    const placement::WhyHere& why = answer.why;
    const placement::HarmTable& table = answer.period.table;
    const std::string pot = placement::pot_words(answer.period.scene, table.rows[why.row]);
    const std::string& instead = table.spots[why.instead].id;
    if (why.instead == why.spot) return "The plan has " + pot + " there already.";
    if (why.is_equally_good) {
        return "Equally good: with " + pot + " at " + instead + " the plan loses nothing.";
    }
    std::string text = "With " + pot + " at " + instead + " the best plan is worse by " +
                       growth_days_words(why.objective_change) + ": " +
                       change_words(pot + " itself", false, why.own_harm_change) + ", " +
                       change_words("the others", true, why.others_harm_change) +
                       ", and it takes " + lifts_words(why.lifts_change) + ".";
    if (why.objective_change - why.loss_at_least > 0.05) {
        text += " Proved: at least " + growth_days_words(why.loss_at_least) + ".";
    }
    return text;
}

}  // namespace

std::string why_text(const WhyAnswer& answer) {
    const placement::WhyHere& why = answer.why;
    const placement::HarmTable& table = answer.period.table;
    const std::string& name = answer.period.scene.pots[table.rows[why.row].pot].label.name;
    const std::string pot = placement::pot_words(answer.period.scene, table.rows[why.row]);
    std::string text =
        plan_opening(answer.period, "why " + pot + (name == pot ? "" : " (" + name + ")") +
                                        " stands at " + spot_id(table, why.spot));
    text += paragraph(placement::place_reason(answer.period.scene, table, answer.plan.spot_of_row,
                                              why.row)) +
            "\n";
    const bool is_same_light =
        table.at(why.row, why.spot).light_spot == table.at(why.row, why.instead).light_spot;
    if (!is_same_light && !(why.is_equally_good && std::abs(why.own_harm_change) < 0.005)) {
        TextTable rows({{.heading = ""},
                        {.heading = spot_id(table, why.spot), .align = Align::right},
                        {.heading = spot_id(table, why.instead), .align = Align::right}});
        add_figures(table.at(why.row, why.spot), table.at(why.row, why.instead), rows);
        rows.add_rule();
        add_harm(table.at(why.row, why.spot), table.at(why.row, why.instead), rows);
        text += rows.text() + "\n";
    }
    std::string closing = verdict(answer);
    if (answer.is_own_choice && why.instead != why.spot) {
        closing = "No spot was named to compare with, so " + spot_id(table, why.instead) +
                  " is taken, the best elsewhere. " + closing;
    }
    return text + paragraph(closing);
}

}  // namespace sunfleck::output
