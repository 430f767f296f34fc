#include "scene/pot_cell.h"

#include "scene/key_unit.h"
#include "scene/scene_keys.h"
#include "sunfleck/base/json_text.h"
#include "sunfleck/base/require.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace sunfleck::scene {
namespace {

const ObjectShape* object_in(const KeyShape& key) {
    const auto* inner = std::get_if<const ObjectShape*>(&key.shape.form);
    return inner == nullptr ? nullptr : *inner;
}

std::string lower_case(std::string_view text) {
    std::string lower(text);
    for (char& c : lower) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return lower;
}

std::string trimmed_cell(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return std::string(text.substr(first, text.find_last_not_of(" \t") - first + 1));
}

/// A comma that may part thousands: "1,500" where commas also part the fields.
bool is_comma_doubtful(std::string_view text, char delimiter) {
    const std::size_t comma = text.find(',');
    if (comma == std::string_view::npos) return false;
    if (text.find_first_of(",.", comma + 1) != std::string_view::npos) return true;
    if (text.find('.') != std::string_view::npos) return true;
    std::size_t figures = 0;
    while (comma + 1 + figures < text.size() && text[comma + 1 + figures] >= '0' &&
           text[comma + 1 + figures] <= '9') {
        ++figures;
    }
    return delimiter == ',' && figures == 3;
}

CellReading number_cell(const std::string& text, const KeyShape& key, char delimiter) {
    const std::string plain = trimmed_cell(text);
    if (is_comma_doubtful(plain, delimiter)) {
        return {.message = "\"" + text + "\" can be read in two ways.",
                .mend = "Write the decimal point as a point, and no comma between thousands."};
    }
    const Unit* unit = unit_of_key(key.name);
    const auto value = measured_in(plain.starts_with('+') ? plain.substr(1) : plain, unit);
    if (value && std::isfinite(*value)) return {.json = json_number(*value)};
    return {.message = "The " + key.title + " is \"" + text + "\", which is no number" +
                       (unit == nullptr ? "." : " of " + std::string(unit->name) + "."),
            .mend = "Write a number, or leave the cell empty."};
}

/// Pins as spreadsheets write them in several languages; "x" is a tick.
CellReading flag_cell(const std::string& text) {
    constexpr std::array<std::string_view, 13> yes{"yes",       "true", "1",   "x",    "y",
                                                   "ja",        "wahr", "oui", "vrai", "si",
                                                   "verdadero", "vero", "waar"};
    constexpr std::array<std::string_view, 11> no{"no",  "false", "0",   "n",     "nein",  "falsch",
                                                  "non", "faux",  "nee", "falso", "onwaar"};
    const std::string word = lower_case(trimmed_cell(text));
    if (std::find(yes.begin(), yes.end(), word) != yes.end()) return {.json = "true"};
    if (std::find(no.begin(), no.end(), word) != no.end()) return {.json = "false"};
    return {.message = "\"" + text + "\" is neither yes nor no.", .mend = "Write yes or no."};
}

/// Words parted by blanks, commas or semicolons.
std::string list_json(const std::string& text) {
    std::string list;
    std::string word;
    for (const char c : text + ' ') {
        const bool parts = std::string_view(" \t\r\n,;").find(c) != std::string_view::npos;
        if (!parts) {
            word += c;
        } else if (!word.empty()) {
            list += (list.empty() ? "" : ", ") + json_quoted(word);
            word.clear();
        }
    }
    return "[" + list + "]";
}

/// A text that looks like a guard itself is always guarded, or it would come back without.
std::string guarded_text(const std::string& text, const CsvStyle& style) {
    const bool looks_guarded = without_guard(text) != text;
    return style.guards_for_sheets || looks_guarded ? guarded_for_spreadsheets(text) : text;
}

std::string number_text(const std::string& figure, const CsvStyle& style) {
    std::string text = figure;
    if (style.has_decimal_comma) std::replace(text.begin(), text.end(), '.', ',');
    return text;
}

}  // namespace

std::vector<std::string> pots_csv_columns() {
    std::vector<std::string> columns;
    for (const KeyShape& key : pot_keys().shape().keys) {
        const ObjectShape* inner = object_in(key);
        if (inner == nullptr) {
            columns.push_back(key.name);
            continue;
        }
        for (const KeyShape& part : inner->keys) columns.push_back(key.name + '_' + part.name);
    }
    return columns;
}

PotColumn pot_column(std::string_view name) {
    const ObjectShape& pot = pot_keys().shape();
    if (const KeyShape* key = pot.find(name)) return {{}, key};
    for (const KeyShape& key : pot.keys) {
        const ObjectShape* inner = object_in(key);
        if (inner == nullptr || !name.starts_with(key.name + '_')) continue;
        if (const KeyShape* part = inner->find(name.substr(key.name.size() + 1))) {
            return {key.name, part};
        }
    }
    fail_requirement("name", "the column is one of a pot's", __FILE__, __LINE__);
}

CellReading read_cell(const std::string& text, const KeyShape& key, char delimiter) {
    if (std::holds_alternative<NumberShape>(key.shape.form)) {
        return number_cell(text, key, delimiter);
    }
    if (std::holds_alternative<FlagShape>(key.shape.form)) return flag_cell(text);
    if (std::holds_alternative<ListShape>(key.shape.form)) return {.json = list_json(text)};
    if (std::holds_alternative<WordShape>(key.shape.form)) {
        return {.json = json_quoted(lower_case(trimmed_cell(text)))};
    }
    return {.json = json_quoted(text)};
}

std::string cell_text(const JsonNode& value, const CsvStyle& style) {
    switch (value.kind) {
        case JsonKind::number:
            return number_text(value.text, style);
        case JsonKind::boolean:
            return value.boolean ? "yes" : "no";
        case JsonKind::text:
            return guarded_text(value.text, style);
        case JsonKind::array: {
            std::string list;
            for (const JsonNode& item : value.children) {
                list += (list.empty() ? "" : " ") + item.text;
            }
            return guarded_text(list, style);
        }
        case JsonKind::null:
        case JsonKind::object:
            break;
    }
    fail_requirement("kind", "a pot's cell holds one value or a list", __FILE__, __LINE__);
}

}  // namespace sunfleck::scene
