#include "sunfleck/placement/reasons.h"

#include "sunfleck/base/plain_words.h"
#include "sunfleck/base/require.h"
#include "sunfleck/light/clear_sky.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace sunfleck::placement {

namespace {

/// Differences in harm below this many growth days tell no story.
constexpr double no_story = 0.005;

/// Filtered sun of less is not worth a word.
constexpr double told_from_min = 30.0;

enum class Part { hot_sun, light_deficit, pot_wall };

double part_of(const HarmParts& parts, Part part) {
    switch (part) {
        case Part::hot_sun:
            return parts.hot_sun;
        case Part::light_deficit:
            return parts.light_deficit;
        case Part::pot_wall:
            return parts.pot_wall;
    }
    return 0.0;
}

constexpr Part all_parts[] = {Part::hot_sun, Part::light_deficit, Part::pot_wall};

/// The part that falls most from one to the other; nothing when none falls enough to tell.
std::optional<Part> part_that_falls(const HarmParts& here, const HarmParts& there) {
    std::optional<Part> best;
    double most = no_story;
    for (const Part part : all_parts) {
        const double fall = part_of(here, part) - part_of(there, part);
        if (fall > most) {
            most = fall;
            best = part;
        }
    }
    return best;
}

Part largest_part(const HarmParts& parts) {
    return *std::max_element(std::begin(all_parts), std::end(all_parts),
                             [&](Part a, Part b) { return part_of(parts, a) < part_of(parts, b); });
}

std::string capitalised(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') {
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    }
    return text;
}

std::string light_words(const SpotFigures& figures) {
    return fixed_words(figures.light_kwh_m2 * 1000.0 * light::dli_mol_per_wh, 0) + " mol";
}

/// "Full sun in the hot hours falls from 4 h 10 to 35 min". Nothing when the words are the same or
/// the figure goes the other way.
std::optional<std::string> change_told(const std::string& what, double here_min, double there_min,
                                       bool is_less) {
    const std::string here = duration_words(here_min);
    const std::string there = duration_words(there_min);
    if ((there_min < here_min) != is_less || here == there) return std::nullopt;
    return what + (is_less ? " falls from " : " rises from ") + here + " to " + there;
}

/// Full sun where it tells the story, else all that comes through.
std::optional<std::string> sun_change(double full_here_min, double full_there_min,
                                      double all_here_min, double all_there_min, bool is_less,
                                      const std::string& when) {
    const bool full_tells =
        2.0 * std::abs(full_here_min - full_there_min) >= std::abs(all_here_min - all_there_min);
    if (full_tells) {
        auto told = change_told("Full sun " + when, full_here_min, full_there_min, is_less);
        if (told) return told;
    }
    return change_told("Sun " + when + " (filtered sun in part)", all_here_min, all_there_min,
                       is_less);
}

std::string of_full_sun(double minutes) {
    const std::string words = duration_words(minutes);
    return words == "none" ? "no full sun" : words + " of full sun";
}

/// To the half hour: it is a judgement, not a measurement.
std::string bears_words(const HarmRow& row) {
    const double half_hours = std::round(row.bears_hot_h * 2.0);
    if (half_hours < 1.0) return "it bears hardly any";
    return "it bears about " + duration_words(half_hours * 30.0);
}

std::string want_words(const HarmRow& row) {
    if (row.wants_all_sun) return "now it wants all the sun there is";
    return "it wants " + duration_words(row.wanted_sun_h * 60.0) + " of sun or more";
}

std::string hot_story(const HarmRow& row, const SpotFigures& here, const SpotFigures& there) {
    const auto change = sun_change(here.hot_full_min, there.hot_full_min, here.hot_effective_min,
                                   there.hot_effective_min, true, "in the hot hours");
    return change.value_or("A little less heat there") + "; " + bears_words(row) + ".";
}

std::string light_story(const HarmRow& row, const SpotFigures& here, const SpotFigures& there) {
    std::optional<std::string> change =
        sun_change(here.full_min, there.full_min, here.effective_min, there.effective_min, false,
                   "in the day");
    if (!change && light_words(here) != light_words(there)) {
        change = "The light of a clear day rises from " + light_words(here) + " to " +
                 light_words(there);
    }
    // More hours than it wants, and still too dark: they are hours of a low sun.
    const bool is_short_of_hours = here.full_min < row.wanted_sun_h * 60.0;
    return change.value_or("A little more light there") +
           (row.wants_all_sun || is_short_of_hours ? "; " + want_words(row) + "." : ".");
}

std::string wall_story(const SpotFigures& here, const SpotFigures& there) {
    std::optional<std::string> change;
    if (here.west_wall_full_min && there.west_wall_full_min) {
        change = change_told("Full sun on the pot's west side", *here.west_wall_full_min,
                             *there.west_wall_full_min, true);
    }
    return change.value_or("A little less heat there") + ": cooler roots.";
}

std::string story(Part part, const HarmRow& row, const SpotFigures& here,
                  const SpotFigures& there) {
    switch (part) {
        case Part::hot_sun:
            return hot_story(row, here, there);
        case Part::light_deficit:
            return light_story(row, here, there);
        case Part::pot_wall:
            return wall_story(here, there);
    }
    return {};
}

/// "Content with 7 h of full sun in the day, 35 min of it in the hot hours, and 2 h filtered."
std::string contentment(const SpotFigures& figures) {
    const std::string full = duration_words(figures.full_min);
    const bool has_filtered = figures.filtered_min >= told_from_min;
    if (full == "none") {
        return has_filtered
                   ? "Content with " + duration_words(figures.filtered_min) + " of filtered sun."
                   : "Content without direct sun.";
    }
    return "Content with " + full + " of full sun in the day, " +
           duration_words(figures.hot_full_min) + " of it in the hot hours" +
           (has_filtered ? ", and " + duration_words(figures.filtered_min) + " filtered." : ".");
}

/// What it is short of, or has too much of, at a spot.
std::string complaint(const HarmRow& row, const HarmCell& cell) {
    const SpotFigures& figures = cell.figures;
    switch (largest_part(cell.parts)) {
        case Part::hot_sun:
            if (figures.hot_effective_min - figures.hot_full_min < 5.0) {
                return of_full_sun(figures.hot_full_min) + " in the hot hours; " + bears_words(row);
            }
            return duration_words(figures.hot_effective_min) +
                   " of sun in the hot hours (filtered sun in part); " + bears_words(row);
        case Part::light_deficit:
            return of_full_sun(figures.full_min) + " in the day, " + light_words(figures) +
                   " of light; " + want_words(row);
        case Part::pot_wall:
            return of_full_sun(figures.west_wall_full_min.value_or(0.0)) +
                   " on the pot's west side";
    }
    return {};
}

/// The row that stands, in the plan, on the spots that this row leaves.
std::optional<std::size_t> who_follows(const HarmTable& table, const Standing& plan,
                                       std::size_t row) {
    const std::vector<std::size_t>& left = table.covered(row, *table.rows[row].start_spot);
    for (std::size_t other = 0; other < plan.size(); ++other) {
        if (other == row || !plan[other]) continue;
        for (const std::size_t cell : table.covered(other, *plan[other])) {
            if (std::binary_search(left.begin(), left.end(), cell)) return other;
        }
    }
    return std::nullopt;
}

double harm_a_day(const HarmTable& table, std::size_t row, std::size_t spot) {
    return table.at(row, spot).parts.without_jump() / std::max(1, table.day_count);
}

}  // namespace

PotState state_at(const HarmTable& table, std::size_t row, std::size_t spot) {
    if (harm_a_day(table, row, spot) < content_below) return PotState::content;
    switch (largest_part(table.at(row, spot).parts)) {
        case Part::hot_sun:
            return PotState::scorches;
        case Part::light_deficit:
            return PotState::too_dark;
        case Part::pot_wall:
            return PotState::gets_hot;
    }
    return PotState::content;
}

std::string state_words(PotState state) {
    switch (state) {
        case PotState::content:
            return "content";
        case PotState::scorches:
            return "scorches";
        case PotState::gets_hot:
            return "pot gets hot";
        case PotState::too_dark:
            return "too dark";
    }
    return {};
}

std::string pot_words(const scene::Scene& scene, const HarmRow& row) {
    const scene::Pot& pot = scene.pots[row.pot];
    if (pot.count == 1) return pot.label.id;
    return pot.label.id + " (" + std::to_string(row.copy) + " of " + std::to_string(pot.count) +
           ")";
}

std::string standing_words(const HarmTable& table, std::size_t row, std::size_t spot) {
    const HarmCell& cell = table.at(row, spot);
    const PotState state = state_at(table, row, spot);
    if (state == PotState::content) return contentment(cell.figures);
    return capitalised(state_words(state)) + ": " + complaint(table.rows[row], cell) + ".";
}

double own_gain(const HarmTable& table, std::size_t row, std::size_t spot) {
    SUNFLECK_REQUIRE(table.rows[row].start_spot, "only a pot that stands somewhere can gain");
    return table.at(row, *table.rows[row].start_spot).parts.without_jump() -
           table.at(row, spot).parts.total();
}

std::string move_reason(const scene::Scene& scene, const HarmTable& table, const Standing& plan,
                        std::size_t row) {
    const HarmRow& pot = table.rows[row];
    const HarmCell& here = table.at(row, *pot.start_spot);
    const HarmCell& there = table.at(row, *plan[row]);
    const double gain = own_gain(table, row, *plan[row]);
    if (here.refusal == Refusal::excluded) {
        return "Its owner has ruled this place out. " + standing_words(table, row, *plan[row]);
    }
    const std::optional<Part> part = part_that_falls(here.parts, there.parts);
    if (part && gain > no_story) {
        return story(*part, pot, here.figures, there.figures);
    }
    const std::optional<std::size_t> follower = who_follows(table, plan, row);
    const std::string room =
        follower ? "Makes room for " + pot_words(scene, table.rows[*follower]) + "." : "";
    if (std::abs(gain) <= no_story) {
        return "Equally good there." + (room.empty() ? "" : " " + room);
    }
    return room.empty() ? standing_words(table, row, *plan[row])
                        : room + " " + standing_words(table, row, *plan[row]);
}

std::string place_reason(const scene::Scene& scene, const HarmTable& table, const Standing& plan,
                         std::size_t row) {
    SUNFLECK_REQUIRE(plan[row], "a pot without a place has no reason to stand there");
    const HarmRow& pot = table.rows[row];
    if (pot.start_spot && *pot.start_spot != *plan[row]) {
        return move_reason(scene, table, plan, row);
    }
    std::string text = standing_words(table, row, *plan[row]);
    if (!pot.may_move) {
        const scene::Pot& kept = scene.pots[pot.pot];
        text += kept.pinned ? " It is pinned here."
                            : " At " + weight_words(kept.weight_kg) + " it stays where it is.";
    }
    return text;
}

std::vector<Unsuited> unsuited_pots(const HarmTable& table, const Standing& plan) {
    std::vector<Unsuited> unsuited;
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        std::optional<std::size_t> best;
        for (std::size_t spot = 0; spot < table.spots.size(); ++spot) {
            if (table.at(row, spot).refusal != Refusal::none) continue;
            if (!best || harm_a_day(table, row, spot) < harm_a_day(table, row, *best) - 1e-9) {
                best = spot;
            }
        }
        if (!best) {
            unsuited.push_back({row, std::nullopt, "It fits at no spot that is allowed to it."});
        } else if (!plan[row]) {
            unsuited.push_back({row, best, "All the spots that suit it are taken."});
        } else if (state_at(table, row, *best) != PotState::content) {
            unsuited.push_back({row, best, standing_words(table, row, *best)});
        }
    }
    return unsuited;
}

std::string refusal_words(const scene::Scene& scene, const HarmTable& table, std::size_t row,
                          std::size_t spot) {
    const scene::Pot& pot = scene.pots[table.rows[row].pot];
    const std::string name = pot_words(scene, table.rows[row]);
    const std::string& place = table.spots[spot].name;
    switch (table.at(row, spot).refusal) {
        case Refusal::none:
            return {};
        case Refusal::does_not_fit:
            return name + " does not fit at " + place + ".";
        case Refusal::too_tall:
            return name + " is too tall for " + place + ": the tier above is in the way.";
        case Refusal::too_heavy:
            return name + " weighs " + weight_words(pot.weight_kg) + ", more than " + place +
                   " may carry.";
        case Refusal::excluded:
            return "The scene says that " + name + " must not stand at " + place + ".";
        case Refusal::pinned_elsewhere:
            return name + " is pinned where it stands.";
        case Refusal::unliftable:
            return name + " weighs " + weight_words(pot.weight_kg) +
                   ", more than the people here may lift; it stays where it stands.";
    }
    return {};
}

}  // namespace sunfleck::placement
