#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// Plain text for a terminal.
namespace sunfleck::output {

/// Columns that a text takes on a terminal: wide letters count two, combining marks none. The
/// text is UTF-8; each broken byte counts one.
[[nodiscard]] int display_width(std::string_view text);

/// The text cut to at most `width` columns, "…" at its end where something is missing.
[[nodiscard]] std::string cut_to_width(std::string_view text, int width);

/// Where the first word of a text ends; a figure and its unit are one: "4 h 10", "3.1 kg".
[[nodiscard]] std::size_t end_of_word(std::string_view text);

/// The text broken at spaces into lines of at most `width` columns; a figure keeps its unit beside
/// it ("4 h 10", "3.1 kg"), and longer words are cut apart.
[[nodiscard]] std::vector<std::string> wrapped_lines(std::string_view text, int width);

/// The same as one text, each line after the first begun with `indent` spaces.
[[nodiscard]] std::string wrapped_text(std::string_view text, int width = 80, int indent = 0);

enum class Align { left, right };

/// One column of a table. Figures stand to the right.
struct TextColumn {
    std::string heading;
    Align align = Align::left;
    bool wraps = false;  ///< takes further lines where room is short; else it is cut with "…"
};

/// Rows under headings, as wide as they need and never wider than asked.
class TextTable {
  public:
    explicit TextTable(std::vector<TextColumn> columns);
    /// One cell per column.
    void add_row(std::vector<std::string> cells);
    /// A quiet line before the next row.
    void add_rule();
    /// Headings, a rule and the rows; every line ends with a newline and no spaces. Columns marked
    /// `wraps` give up room first, then the widest of the left-aligned ones; figures are kept.
    [[nodiscard]] std::string text(int width = 80) const;

  private:
    std::vector<TextColumn> columns_;
    std::vector<std::vector<std::string>> rows_;  ///< an empty row is a rule
};

}  // namespace sunfleck::output
