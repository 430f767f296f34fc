#include "sunfleck/scene/species.h"

#include "scene/species_text.h"
#include "sunfleck/base/csv.h"
#include "sunfleck/base/nearest_name.h"
#include "sunfleck/base/require.h"
#include "sunfleck/base/unicode_text.h"

#include <algorithm>
#include <charconv>

namespace sunfleck::scene {
namespace {

/// One row of the table with its columns by name. The table is our own, so a fault is a bug.
class SpeciesRow {
  public:
    SpeciesRow(const CsvRow& header, const CsvRow& row) : header_(header), row_(row) {
        SUNFLECK_REQUIRE(header.fields.size() == row.fields.size(), "a species row is whole");
    }

    [[nodiscard]] const std::string& text(std::string_view column) const {
        for (std::size_t i = 0; i < header_.fields.size(); ++i) {
            if (header_.fields[i].text == column) return row_.fields[i].text;
        }
        fail_requirement("text", "the species table has its columns", __FILE__, __LINE__);
    }

    [[nodiscard]] double number(std::string_view column) const {
        const std::string& figure = text(column);
        double value = 0.0;
        const auto [end, error] =
            std::from_chars(figure.data(), figure.data() + figure.size(), value);
        SUNFLECK_REQUIRE(error == std::errc{} && end == figure.data() + figure.size(),
                         "a species figure is a number");
        return value;
    }

  private:
    const CsvRow& header_;
    const CsvRow& row_;
};

ScorchRisk scorch_risk(const std::string& word) {
    if (word == "low") return ScorchRisk::low;
    if (word == "medium") return ScorchRisk::medium;
    SUNFLECK_REQUIRE(word == "high", "a scorch risk is low, medium or high");
    return ScorchRisk::high;
}

Species species_of(const SpeciesRow& row) {
    Species species;
    species.common_name = row.text("common_name");
    species.botanical_name = row.text("botanical_name");
    species.light_class = row.text("light_class");
    species.wants = {.sun_min_h = row.number("sun_min_h"),
                     .sun_max_h = row.number("sun_max_h"),
                     .drought_tolerance = row.number("drought_tolerance_0_5"),
                     .shade_tolerance = row.number("shade_tolerance_0_5"),
                     .scorch_risk = scorch_risk(row.text("scorch_risk")),
                     .shelter_below_c = row.number("shelter_below_c")};
    const std::string& zones = row.text("hardiness_usda_zone_in_ground");
    const std::size_t dash = zones.find('-');
    SUNFLECK_REQUIRE(dash != std::string::npos, "hardiness is a range of zones");
    std::from_chars(zones.data(), zones.data() + dash, species.hardiness_zone_low);
    std::from_chars(zones.data() + dash + 1, zones.data() + zones.size(),
                    species.hardiness_zone_high);
    species.leaf_habit = row.text("leaf_habit");
    species.hours_source = row.text("hours_source");
    species.tolerance_source = row.text("tolerance_source");
    species.scorch_source = row.text("scorch_source");
    species.zone_source = row.text("zone_source");
    species.shelter_source = row.text("shelter_source");
    species.notes = row.text("notes");
    return species;
}

std::vector<Species> read_table() {
    const auto table = parse_csv(species_text(), "species.csv");
    SUNFLECK_REQUIRE(table && !table->rows.empty(), "the species table can be read");
    std::vector<Species> all;
    for (std::size_t i = 1; i < table->rows.size(); ++i) {
        all.push_back(species_of(SpeciesRow(table->rows.front(), table->rows[i])));
    }
    return all;
}

/// The name's words, single blanks between, in one form of accents.
std::vector<std::string> words_of(std::string_view name) {
    std::vector<std::string> words;
    const std::string composed = nfc(name);
    std::string word;
    for (const char c : composed + ' ') {
        if (c != ' ' && c != '\t') {
            word += c;
        } else if (!word.empty()) {
            words.push_back(std::move(word));
            word.clear();
        }
    }
    return words;
}

std::string joined(const std::vector<std::string>& words, std::size_t count) {
    std::string text;
    for (std::size_t i = 0; i < std::min(count, words.size()); ++i) {
        text += (i > 0 ? " " : "") + words[i];
    }
    return text;
}

/// Equal but for capitals.
bool is_same(std::string_view a, std::string_view b) {
    return a.size() == b.size() && edit_distance(a, b) == 0;
}

/// How well a row answers to the words: 3 by its whole name, 2 by genus and species, 1 as a
/// member of a genus listed as a whole, 0 not at all.
int match(const Species& species, const std::vector<std::string>& words) {
    const std::string whole = joined(words, words.size());
    if (is_same(whole, species.common_name) || is_same(whole, species.botanical_name)) return 3;
    const std::vector<std::string> botanical = words_of(species.botanical_name);
    if (words.size() > 2 && is_same(joined(words, 2), joined(botanical, 2))) return 2;
    const bool is_genus = botanical.size() == 2 && botanical[1] == "spp.";
    return is_genus && is_same(words.front(), botanical.front()) ? 1 : 0;
}

}  // namespace

const std::vector<Species>& species_table() {
    static const std::vector<Species> table = read_table();
    return table;
}

const Species* find_species(std::string_view name) {
    const std::vector<std::string> words = words_of(name);
    if (words.empty()) return nullptr;
    const Species* best = nullptr;
    int best_match = 0;
    for (const Species& species : species_table()) {
        const int quality = match(species, words);
        if (quality > best_match) {
            best = &species;
            best_match = quality;
        }
    }
    return best;
}

std::string nearest_species(std::string_view name) {
    std::vector<std::string> names;
    for (const Species& species : species_table()) {
        names.push_back(species.common_name);
        names.push_back(species.botanical_name);
    }
    return nearest_name(joined(words_of(name), 100), names);
}

std::vector<std::string> kindred_species(std::string_view name) {
    constexpr std::size_t least_letters = 3;
    const std::vector<std::string> asked = words_of(name);
    std::vector<std::string> kin;
    for (const Species& species : species_table()) {
        const std::vector<std::string> words =
            words_of(species.common_name + " " + species.botanical_name);
        const bool is_kin = std::any_of(asked.begin(), asked.end(), [&](const std::string& word) {
            return word.size() >= least_letters &&
                   std::any_of(words.begin(), words.end(),
                               [&](const std::string& own) { return is_same(word, own); });
        });
        if (is_kin) kin.push_back(species.common_name);
    }
    return kin;
}

}  // namespace sunfleck::scene
