#pragma once

#include "sunfleck/base/problem.h"

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace sunfleck {

/// One field of a table and where it stands.
struct CsvField {
    std::string text;
    int line = 1;    ///< from 1: where its first character stands
    int column = 1;  ///< from 1, in characters
};

struct CsvRow {
    std::vector<CsvField> fields;
};

/// A table as read: every row that is not blank, the header among them.
struct CsvTable {
    char delimiter = ',';        ///< ',', ';' or a tab
    bool has_mark = false;       ///< began with a byte order mark
    std::string newline = "\n";  ///< as the file's first line ended
    std::vector<CsvRow> rows;
};

/// The longest line of fields that is read; real tables have some thirty.
inline constexpr std::size_t most_csv_fields = 1000;

/// Reads a table of fields as spreadsheets write it (RFC 4180, and its usual variants): comma,
/// semicolon or tab, whichever the first line has most of outside quotes; an initial "sep=;" line
/// as some spreadsheets write; quoted fields with doubled quotes, delimiters and line ends inside;
/// LF, CRLF or CR; with or without a byte order mark. Blanks about an unquoted field are dropped;
/// so are lines that hold no character but delimiters and blanks.
///
/// Refused with line and column: text that is not UTF-8, a NUL, a quote inside an unquoted field
/// or after a closing quote, a quote that is never closed, more than `most_csv_fields` in a row.
[[nodiscard]] Result<CsvTable> parse_csv(std::string_view text, const std::string& file);

/// One line of a table without its end; fields that need it are quoted. A row of one empty field
/// is written as two quotes, so that it is no blank line.
[[nodiscard]] std::string csv_line(std::span<const std::string> fields, char delimiter);

/// The same for a table's first line: fields that hold any of the delimiters are quoted, so that
/// the reader finds the right one.
[[nodiscard]] std::string csv_header_line(std::span<const std::string> fields, char delimiter);

/// A text wrapped as ="text" when a spreadsheet would take it for a number, a date or a formula
/// and spoil it ("007", "1E3", "=A1", "MAR1"); other texts unchanged. Not for numbers.
[[nodiscard]] std::string guarded_for_spreadsheets(std::string_view text);
/// Takes the wrapping of guarded_for_spreadsheets() off again.
[[nodiscard]] std::string without_guard(std::string_view text);

}  // namespace sunfleck
