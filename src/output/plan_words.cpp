#include "output/plan_words.h"

#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/text_table.h"
#include "sunfleck/output/words.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::output {

std::string plan_opening(const PlanPeriod& period, const std::string& what) {
    const placement::HarmTable& table = period.table;
    std::string text = period.scene.site.name + ", ";
    if (!table.season.empty()) text += season_words(table.season) + ", ";
    text += date_range_and_year_words(table.dates.from, table.dates.to) + ": " + what + ".";
    if (period.is_default_season) {
        text += " No season was asked, so this is the one of the summer solstice.";
    }
    std::string lines = paragraph(text);
    const std::string first =
        clock_range_words(period.hot_on_first.from, period.hot_on_first.to, period.zone);
    const std::string last =
        clock_range_words(period.hot_on_last.from, period.hot_on_last.to, period.zone);
    lines += "Hot hours: " + first + (last == first ? "" : ", at the end " + last);
    return lines + " (" + period.zone.name() + ").\n\n";
}

std::string growth_days_words(double growth_days) {
    // Tenths of hundreds are more than a survey bears.
    const std::string figure = fixed_words(growth_days, std::abs(growth_days) < 99.95 ? 1 : 0);
    return figure + (figure == "1.0" ? " growth day" : " growth days");
}

std::string gap_words(const placement::SeasonPlan& plan) {
    if (plan.is_optimal) return "No plan does better: this is proved.";
    return "No plan can do better by more than " +
           growth_days_words(std::max(plan.objective - plan.bound, 0.1)) + ".";
}

std::string paragraph(const std::string& text) {
    return wrapped_text(text) + "\n";
}

std::string spot_id(const placement::HarmTable& table, const std::optional<std::size_t>& spot) {
    return spot ? table.spots[*spot].id : std::string();
}

}  // namespace sunfleck::output
