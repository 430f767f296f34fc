#pragma once

#include "sunfleck/base/csv.h"
#include "sunfleck/base/problem.h"
#include "sunfleck/scene/scene.h"

#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace sunfleck::scene {

/// How a table of pots is written.
struct CsvStyle {
    char delimiter = ',';            ///< ',', ';' or a tab
    bool has_decimal_comma = false;  ///< 4,5 for 4.5; only beside ';' or a tab
    bool guards_for_sheets = true;   ///< wrap texts that a spreadsheet would spoil: ="007"
    bool operator==(const CsvStyle&) const = default;
};

/// The pots of a garden as a spreadsheet table, one pot a row.
///
/// The header holds the keys of a scene's pots in any order; `wants` and `state` are flattened to
/// columns such as wants_sun_min_h and state_until. Capitals don't matter, blanks count as '_'.
/// Only id is needed; an empty cell is a key left out. Lists are parted by blanks, pins are yes or
/// no in several languages. Numbers may have a decimal comma and their unit ("4,5", "45 mm").
/// Other columns are kept and named in one warning; a column that is nearly a key is an error.
class PotsCsv {
  public:
    [[nodiscard]] static Result<PotsCsv> read(const std::filesystem::path& path);
    /// `file` names the text in problems. All problems at once.
    [[nodiscard]] static Result<PotsCsv> parse(std::string_view text, std::string file);

    /// As written, not completed; their labels point at "/pots/0" and on.
    [[nodiscard]] const std::vector<Pot>& pots() const { return pots_; }
    [[nodiscard]] const Problems& warnings() const { return warnings_; }
    /// Whether the problem's pointer is in one of these pots; fills in file, line and column.
    bool locate(Problem& problem) const;

    /// The same table with each pot at that spot (one per pot; empty: nowhere).
    [[nodiscard]] PotsCsv with_pots_at(std::span<const std::string> spot_ids) const;
    /// The table again: same rows, columns, delimiter and line ends; cells that were not changed
    /// hold the same text.
    [[nodiscard]] std::string text() const;

  private:
    std::string file_;
    CsvTable table_;                    ///< row 0 is the header
    std::vector<std::string> columns_;  ///< the key of each column; empty: the user's own
    std::vector<Pot> pots_;
    Problems warnings_;
};

/// A new table of pots with a column for every key.
[[nodiscard]] std::string pots_csv_text(std::span<const Pot> pots, const CsvStyle& style = {});

/// The keys of all columns, in the order they are written.
[[nodiscard]] std::vector<std::string> pots_csv_columns();

}  // namespace sunfleck::scene
