#include "base/golden.h"

#include "sunfleck/base/version.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <optional>
#include <sstream>

namespace sunfleck::test {
namespace {

// Keys keep the order in which they were written.
using Json = nlohmann::ordered_json;

constexpr double minutes = 0.01;
constexpr double relative = 1e-9;
// Most figures are written with six places: the last may round the other way.
constexpr double last_place = 1.001e-6;

bool ends_with(const std::string& text, const std::string& end) {
    return text.size() >= end.size() &&
           text.compare(text.size() - end.size(), end.size(), end) == 0;
}

bool is_near(double expected, double found, const std::string& key) {
    if (ends_with(key, "_min")) return std::abs(expected - found) <= minutes;
    return std::abs(expected - found) <= std::max(last_place, relative * std::abs(expected));
}

/// Seconds into the day of "2026-06-21T12:30:00.000Z"; nothing when the text is no instant.
std::optional<double> second_of(const std::string& text) {
    if (text.size() < 23 || text[10] != 'T' || text[13] != ':' || text[19] != '.') return {};
    return std::stod(text.substr(11, 2)) * 3600.0 + std::stod(text.substr(14, 2)) * 60.0 +
           std::stod(text.substr(17, 6));
}

bool is_same_text(const std::string& expected, const std::string& found, const std::string& key) {
    if (expected == found) return true;
    if (!ends_with(key, "_utc") && !ends_with(key, "_local")) return false;
    const auto from = second_of(expected);
    const auto to = second_of(found);
    return from && to && std::abs(*from - *to) <= 60.0 * minutes &&
           expected.substr(0, 10) == found.substr(0, 10) && expected.substr(23) == found.substr(23);
}

std::string told(const std::string& pointer, const Json& expected, const Json& found) {
    return pointer + ": " + expected.dump() + " became " + found.dump() + "\n";
}

std::string difference(const Json& expected, const Json& found, const std::string& pointer,
                       const std::string& key) {
    if (expected.is_number() && found.is_number()) {
        const bool is_same = is_near(expected.get<double>(), found.get<double>(), key);
        return is_same ? "" : told(pointer, expected, found);
    }
    if (expected.is_string() && found.is_string()) {
        const bool is_same = is_same_text(expected, found, key);
        return is_same ? "" : told(pointer, expected, found);
    }
    const bool is_nest = expected.is_structured() && expected.type() == found.type();
    if (!is_nest || expected.size() != found.size()) {
        return expected == found ? "" : told(pointer, expected, found);
    }
    std::string all;
    auto other = found.items().begin();
    for (const auto& [inner, value] : expected.items()) {
        if (inner != other.key()) return told(pointer + '/' + inner, value, other.key());
        all += difference(value, other.value(), pointer + '/' + inner,
                          expected.is_object() ? inner : key);
        ++other;
    }
    return all;
}

using Cells = std::vector<std::string>;

std::vector<Cells> cells_of(const std::string& table) {
    std::vector<Cells> rows;
    std::istringstream lines(table);
    for (std::string line; std::getline(lines, line);) {
        Cells& row = rows.emplace_back();
        bool is_quoted = false;
        row.emplace_back();
        for (const char c : line) {
            if (c == '"') is_quoted = !is_quoted;
            if (c == ',' && !is_quoted) {
                row.emplace_back();
            } else {
                row.back() += c;
            }
        }
    }
    return rows;
}

std::optional<double> number_in(const std::string& cell) {
    char* end = nullptr;
    const double value = std::strtod(cell.c_str(), &end);
    if (cell.empty() || end != cell.c_str() + cell.size()) return {};
    return value;
}

bool is_same_cell(const std::string& expected, const std::string& found, const std::string& key) {
    const auto from = number_in(expected);
    const auto to = number_in(found);
    return from && to ? is_near(*from, *to, key) : is_same_text(expected, found, key);
}

std::string approved(const std::string& name) {
    std::ifstream file(std::string(SUNFLECK_GOLDEN) + "/" + name, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

void leave_beside(const std::string& name, const std::string& text) {
    std::ofstream(std::string(SUNFLECK_GOLDEN) + "/" + name + ".new", std::ios::binary) << text;
}

void replace_all(std::string& text, const std::string& from, const std::string& to) {
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
        text.replace(at, from.size(), to);
    }
}

}  // namespace

std::string normalised(std::string text, const std::vector<Stand>& stands) {
    for (const auto& [from, to] : stands) replace_all(text, from, to);
    const std::string version(program_version);
    replace_all(text, "\"program_version\":\"" + version + '"', "\"program_version\":\"VERSION\"");
    replace_all(text, "\"program_version\": \"" + version + '"',
                "\"program_version\": \"VERSION\"");
    replace_all(text, "sunfleck " + version, "sunfleck VERSION");
    return text;
}

std::string json_difference(const std::string& expected, const std::string& found) {
    const Json from = Json::parse(expected, nullptr, false);
    const Json to = Json::parse(found, nullptr, false);
    if (from.is_discarded() || to.is_discarded()) return "not JSON\n";
    return difference(from, to, "", "");
}

std::string csv_difference(const std::string& expected, const std::string& found) {
    const auto from = cells_of(expected);
    const auto to = cells_of(found);
    if (from.empty() || from.size() != to.size()) return "another number of rows\n";
    std::string all;
    for (std::size_t row = 0; row < from.size(); ++row) {
        if (from[row].size() != to[row].size() || from[row].size() != from[0].size()) {
            return "row " + std::to_string(row + 1) + " has another number of cells\n";
        }
        for (std::size_t column = 0; column < from[row].size(); ++column) {
            const std::string& key = from[0][column];
            if (is_same_cell(from[row][column], to[row][column], key)) continue;
            all += "row " + std::to_string(row + 1) + ", " + key + ": " + from[row][column] +
                   " became " + to[row][column] + "\n";
        }
    }
    return all;
}

void check_golden(const std::string& name, const std::string& text) {
    const std::string expected = approved(name);
    if (text != expected) leave_beside(name, text);
    CAPTURE(name);
    CHECK(text == expected);
}

void check_golden_json(const std::string& name, const std::string& text) {
    const std::string difference = json_difference(approved(name), text);
    if (!difference.empty()) leave_beside(name, text);
    CAPTURE(name);
    CHECK(difference.empty());
    if (!difference.empty()) FAIL_CHECK(difference);
}

void check_golden_csv(const std::string& name, const std::string& text) {
    const std::string difference = csv_difference(approved(name), text);
    if (!difference.empty()) leave_beside(name, text);
    CAPTURE(name);
    CHECK(difference.empty());
    if (!difference.empty()) FAIL_CHECK(difference);
}

}  // namespace sunfleck::test
