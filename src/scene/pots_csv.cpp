#include "sunfleck/scene/pots_csv.h"

#include "scene/pot_cell.h"
#include "scene/scene_keys.h"
#include "scene/shape_check.h"
#include "sunfleck/base/json_text.h"
#include "sunfleck/base/json_tree.h"
#include "sunfleck/base/nearest_name.h"
#include "sunfleck/base/require.h"
#include "sunfleck/base/text_file.h"

#include <algorithm>
#include <charconv>

namespace sunfleck::scene {
namespace {

/// Spreadsheets take a text for UTF-8 only when it begins with this.
constexpr const char* byte_order_mark = "\xEF\xBB\xBF";

/// A scene of nothing but pots: the shape that the rows are checked against.
const ObjectKeys<Scene>& table_keys() {
    static const ObjectKeys<Scene> keys = [] {
        ObjectKeys<Scene> made("table of pots", "Pots alone.");
        add_pot_keys(made);
        return made;
    }();
    return keys;
}

/// "Pot Length cm" as "pot_length_cm".
std::string as_key(std::string_view header) {
    std::string key;
    for (const char c : header) {
        const bool is_capital = c >= 'A' && c <= 'Z';
        key += c == ' ' ? '_' : is_capital ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return key;
}

Problem header_problem(const CsvField& field, const std::string& file, std::string code,
                       std::string message, std::string mend) {
    return {.code = std::move(code),
            .file = file,
            .line = field.line,
            .column = field.column,
            .message = std::move(message),
            .mend = std::move(mend)};
}

/// The header, understood.
struct Header {
    std::vector<std::string> columns;  ///< key of each; empty: not ours
    Problems problems;
    Problems warnings;
};

class HeaderReader {
  public:
    HeaderReader(const CsvRow& row, const std::string& file)
        : row_(row), file_(file), keys_(pots_csv_columns()) {}

    Header read() {
        for (const CsvField& field : row_.fields) header_.columns.push_back(column_of(field));
        if (std::find(header_.columns.begin(), header_.columns.end(), "id") ==
            header_.columns.end()) {
            header_.problems.push_back(header_problem(
                row_.fields.front(), file_, "no_id_column", "The table has no column id.",
                "The first row names the columns; id holds each pot's label."));
        }
        if (!unknown_.empty()) {
            Problem warning =
                header_problem(*first_unknown_, file_, "columns_not_used",
                               "These columns are kept but not used: " + unknown_ + ".",
                               "The columns are the keys of a pot, such as pot_length_cm.");
            warning.severity = Severity::warning;
            header_.warnings.push_back(std::move(warning));
        }
        return std::move(header_);
    }

  private:
    std::string column_of(const CsvField& field) {
        std::string key = as_key(without_guard(field.text));
        if (std::find(keys_.begin(), keys_.end(), key) == keys_.end()) {
            note_unknown(field, key);
            return {};
        }
        if (std::find(header_.columns.begin(), header_.columns.end(), key) !=
            header_.columns.end()) {
            header_.problems.push_back(header_problem(field, file_, "column_twice",
                                                      "There are two columns " + key + ".",
                                                      "Take one out or rename it."));
        }
        return key;
    }

    void note_unknown(const CsvField& field, const std::string& key) {
        if (field.text.empty()) return;
        std::string nearest = nearest_name(key, keys_);
        const std::string stem(stem_of_key(key));
        for (const std::string& known : keys_) {
            // The same thing in another unit, or in none.
            const bool has_unit = unit_of_key(known) != nullptr;
            if (has_unit && stem_of_key(known) == stem) nearest = known;
        }
        if (nearest.empty()) {
            if (first_unknown_ == nullptr) first_unknown_ = &field;
            unknown_ += (unknown_.empty() ? "" : ", ") + field.text;
            return;
        }
        Problem problem =
            header_problem(field, file_, "unknown_column", "There is no column " + field.text + ".",
                           "Did you mean " + nearest + "?");
        problem.nearest = nearest;
        header_.problems.push_back(std::move(problem));
    }

    const CsvRow& row_;
    const std::string& file_;
    std::vector<std::string> keys_;
    Header header_;
    std::string unknown_;
    const CsvField* first_unknown_ = nullptr;
};

/// The rows as the JSON of a list of pots.
class RowReader {
  public:
    RowReader(const CsvTable& table, const std::vector<std::string>& columns,
              const std::string& file, Problems& problems)
        : table_(table), columns_(columns), file_(file), problems_(problems) {}

    [[nodiscard]] std::string json() {
        std::string list;
        for (std::size_t i = 1; i < table_.rows.size(); ++i) {
            list += (i > 1 ? "," : "") + row_json(i);
        }
        return "{\"pots\": [" + list + "]}";
    }

  private:
    using Members = std::vector<std::pair<std::string, std::string>>;  ///< object and members

    std::string row_json(std::size_t row) {
        const auto& fields = table_.rows[row].fields;
        Members members{{std::string(), std::string()}};
        for (std::size_t i = 0; i < std::min(columns_.size(), fields.size()); ++i) {
            const std::string text = without_guard(fields[i].text);
            if (columns_[i].empty() || text.empty()) continue;
            const PotColumn column = pot_column(columns_[i]);
            const CellReading cell = read_cell(text, *column.key, table_.delimiter);
            if (cell.json.empty()) {
                complain(row, i, cell);
            } else {
                add(members, column.object, json_quoted(column.key->name) + ": " + cell.json);
            }
        }
        for (std::size_t i = 1; i < members.size(); ++i) {
            add(members, {}, json_quoted(members[i].first) + ": {" + members[i].second + "}");
        }
        return "{" + members.front().second + "}";
    }

    static void add(Members& members, const std::string& object, const std::string& member) {
        auto same = std::find_if(members.begin(), members.end(),
                                 [&object](const auto& m) { return m.first == object; });
        if (same == members.end()) same = members.insert(same, {object, std::string()});
        same->second += (same->second.empty() ? "" : ", ") + member;
    }

    void complain(std::size_t row, std::size_t column, const CellReading& cell) {
        Problem problem = header_problem(table_.rows[row].fields[column], file_, "wrong_cell",
                                         cell.message, cell.mend);
        const PotColumn meant = pot_column(columns_[column]);
        problem.pointer = "/pots/" + std::to_string(row - 1) +
                          (meant.object.empty() ? "" : "/" + meant.object) + "/" + meant.key->name;
        problems_.push_back(std::move(problem));
    }

    const CsvTable& table_;
    const std::vector<std::string>& columns_;
    const std::string& file_;
    Problems& problems_;
};

/// Cells behind the last column of the header.
void find_overlong_rows(const CsvTable& table, const std::string& file, Problems& problems) {
    const std::size_t width = table.rows.front().fields.size();
    for (const CsvRow& row : table.rows) {
        for (std::size_t i = width; i < row.fields.size(); ++i) {
            if (row.fields[i].text.empty()) continue;
            problems.push_back(
                header_problem(row.fields[i], file, "cell_without_column",
                               "This cell stands behind the last column of the header.",
                               table.delimiter == ','
                                   ? "A number with a decimal comma needs quotes here, or a point."
                                   : "Is a field broken in two?"));
            break;
        }
    }
}

/// The pot and the column that a pointer such as "/pots/3/wants/sun_min_h" means.
std::optional<std::pair<std::size_t, std::string>> place_of(std::string_view pointer) {
    constexpr std::string_view start = "/pots/";
    if (!pointer.starts_with(start)) return std::nullopt;
    pointer.remove_prefix(start.size());
    std::size_t pot = 0;
    const auto [end, error] = std::from_chars(pointer.data(), pointer.data() + pointer.size(), pot);
    if (error != std::errc{}) return std::nullopt;
    std::string column(end, pointer.data() + pointer.size());
    if (!column.empty()) column.erase(0, 1);
    std::replace(column.begin(), column.end(), '/', '_');
    return std::pair(pot, column);
}

/// The column itself, the first of an object ("state_is" of "state"), or the one whose list it is
/// in ("not_on" of "not_on_1").
std::size_t column_index(const std::vector<std::string>& columns, std::string column) {
    while (!column.empty()) {
        const auto found = std::find_if(
            columns.begin(), columns.end(),
            [&column](const std::string& c) { return c == column || c.starts_with(column + '_'); });
        if (found != columns.end()) return static_cast<std::size_t>(found - columns.begin());
        const std::size_t cut = column.rfind('_');
        column.resize(cut == std::string::npos ? 0 : cut);
    }
    return 0;
}

std::string with_newlines(const std::vector<std::string>& lines, const std::string& newline) {
    std::string text;
    for (const std::string& line : lines) text += line + newline;
    return text;
}

}  // namespace

Result<PotsCsv> PotsCsv::parse(std::string_view text, std::string file) {
    if (text.starts_with("PK\x03\x04")) {
        return failure({.code = "workbook",
                        .file = std::move(file),
                        .message = "This is a spreadsheet's workbook, not a CSV file.",
                        .mend = "Save the sheet from the spreadsheet as \"CSV UTF-8\"."});
    }
    auto table = parse_csv(text, file);
    if (!table) return tl::unexpected(std::move(table.error()));
    if (table->rows.empty()) {
        return failure({.code = "empty_table",
                        .file = file,
                        .line = 1,
                        .column = 1,
                        .message = "This table is empty.",
                        .mend = "The first row names the columns; id must be one."});
    }
    PotsCsv result;
    result.file_ = std::move(file);
    result.table_ = std::move(*table);
    Header header = HeaderReader(result.table_.rows.front(), result.file_).read();
    result.columns_ = std::move(header.columns);
    result.warnings_ = std::move(header.warnings);
    Problems problems = std::move(header.problems);
    find_overlong_rows(result.table_, result.file_, problems);
    if (result.table_.rows.size() > most_pots + 1) {
        problems.push_back(header_problem(
            result.table_.rows[most_pots + 1].fields.front(), result.file_, "too_many_pots",
            "The table has more than " + std::to_string(most_pots) + " pots.",
            "Part it into several tables."));
    }
    if (!problems.empty()) return tl::unexpected(std::move(problems));

    const std::string json =
        RowReader(result.table_, result.columns_, result.file_, problems).json();
    const JsonReading reading_json = read_json(json, result.file_);
    SUNFLECK_REQUIRE(reading_json.tree && reading_json.problems.empty(), "rows become JSON");
    const JsonTree& tree = *reading_json.tree;
    const ShapeFindings findings = check_shape(tree, table_keys().shape());
    problems.insert(problems.end(), findings.problems.begin(), findings.problems.end());
    Reading reading{.tree = &tree, .sound = &findings.sound, .problems = &problems};
    result.pots_ = table_keys().read({&tree.root(), ""}, reading).pots;
    for (Problem& problem : problems) {
        if (result.locate(problem)) continue;
        problem.file = result.file_;  // of the list as a whole
        problem.line = problem.column = 1;
    }
    std::stable_sort(problems.begin(), problems.end(), [](const Problem& a, const Problem& b) {
        return std::pair(a.line, a.column) < std::pair(b.line, b.column);
    });
    if (!problems.empty()) return tl::unexpected(std::move(problems));
    return result;
}

Result<PotsCsv> PotsCsv::read(const std::filesystem::path& path) {
    auto text = read_text_file(path);
    if (!text) return tl::unexpected(std::move(text.error()));
    return parse(*text, path.string());
}

bool PotsCsv::locate(Problem& problem) const {
    const auto place = place_of(problem.pointer);
    if (!place || place->first + 1 >= table_.rows.size()) return false;
    problem.file = file_;
    const CsvRow& row = table_.rows[place->first + 1];
    const std::size_t index =
        std::min(column_index(columns_, place->second), row.fields.size() - 1);
    problem.line = row.fields[index].line;
    problem.column = row.fields[index].column;
    return true;
}

PotsCsv PotsCsv::with_pots_at(std::span<const std::string> spot_ids) const {
    SUNFLECK_REQUIRE(spot_ids.size() == pots_.size(), "one spot for each pot");
    PotsCsv moved = *this;
    auto column = static_cast<std::size_t>(std::find(columns_.begin(), columns_.end(), "spot") -
                                           columns_.begin());
    if (column == columns_.size()) {
        moved.columns_.push_back("spot");
        moved.table_.rows.front().fields.push_back({.text = "spot"});
        column = moved.table_.rows.front().fields.size() - 1;
    }
    for (std::size_t i = 0; i < spot_ids.size(); ++i) {
        if (moved.pots_[i].spot == spot_ids[i]) continue;
        moved.pots_[i].spot = spot_ids[i];
        auto& fields = moved.table_.rows[i + 1].fields;
        if (fields.size() <= column) fields.resize(column + 1);
        fields[column].text = guarded_for_spreadsheets(spot_ids[i]);
    }
    return moved;
}

std::string PotsCsv::text() const {
    std::vector<std::string> lines;
    for (const CsvRow& row : table_.rows) {
        std::vector<std::string> cells;
        for (const CsvField& field : row.fields) cells.push_back(field.text);
        lines.push_back(lines.empty() ? csv_header_line(cells, table_.delimiter)
                                      : csv_line(cells, table_.delimiter));
    }
    return (table_.has_mark ? byte_order_mark : "") + with_newlines(lines, table_.newline);
}

std::string pots_csv_text(std::span<const Pot> pots, const CsvStyle& style) {
    SUNFLECK_REQUIRE(style.delimiter != ',' || !style.has_decimal_comma,
                     "a decimal comma needs another delimiter");
    const std::vector<std::string> columns = pots_csv_columns();
    std::vector<std::string> lines{csv_line(columns, style.delimiter)};
    for (const Pot& pot : pots) {
        const JsonReading json = read_json(pot_keys().json(pot), {});
        SUNFLECK_REQUIRE(json.tree, "a pot writes JSON");
        std::vector<std::string> cells;
        for (const std::string& name : columns) {
            const PotColumn column = pot_column(name);
            const JsonNode* object = &json.tree->root();
            if (!column.object.empty()) object = object->find(column.object);
            const JsonNode* value = object == nullptr ? nullptr : object->find(column.key->name);
            cells.push_back(value == nullptr ? "" : cell_text(*value, style));
        }
        lines.push_back(csv_line(cells, style.delimiter));
    }
    const std::string text = with_newlines(lines, "\n");
    const bool is_plain = std::all_of(text.begin(), text.end(),
                                      [](char c) { return static_cast<unsigned char>(c) < 0x80U; });
    return (style.guards_for_sheets && !is_plain ? byte_order_mark : "") + text;
}

}  // namespace sunfleck::scene
