#include "sunfleck/output/text_table.h"

#include "sunfleck/base/require.h"

#include <glib.h>

#include <algorithm>
#include <array>
#include <numeric>

namespace sunfleck::output {

namespace {

constexpr int gap = 2;               // spaces between columns
constexpr int least_left_width = 6;  // a text column is never made narrower
constexpr std::string_view ellipsis = "…";

/// The first character of a text: its bytes and its columns.
struct Glyph {
    std::string_view bytes;
    int columns = 1;
};

Glyph first_glyph(std::string_view text) {
    const gunichar code = g_utf8_get_char_validated(text.data(), static_cast<gssize>(text.size()));
    if (code >= 0x110000U) return {text.substr(0, 1), 1};  // a broken byte
    const char* next = g_utf8_next_char(text.data());
    const auto size = static_cast<std::size_t>(next - text.data());
    const int columns = g_unichar_iszerowidth(code) ? 0 : g_unichar_iswide(code) ? 2 : 1;
    return {text.substr(0, size), columns};
}

/// The longest beginning of at most `width` columns; at least one character of a text.
std::string_view beginning(std::string_view text, int width) {
    std::size_t size = 0;
    for (int columns = 0; size < text.size();) {
        const Glyph glyph = first_glyph(text.substr(size));
        columns += glyph.columns;
        if (columns > width && size > 0) break;
        size += glyph.bytes.size();
    }
    return text.substr(0, size);
}

std::string spaces(int count) {
    return std::string(static_cast<std::size_t>(std::max(count, 0)), ' ');
}

std::string rule(int width) {
    std::string line;
    for (int i = 0; i < width; ++i) line += "─";
    return line;
}

void trim_right(std::string& line) {
    line.erase(line.find_last_not_of(' ') + 1);
}

std::string padded(const std::string& cell, int width, Align align) {
    const std::string filling = spaces(width - display_width(cell));
    return align == Align::right ? filling + cell : cell + filling;
}

/// Takes `excess` columns away from the widest of the columns that `may_give`, one at a time.
int narrow(std::vector<int>& widths, int excess, const std::vector<bool>& may_give) {
    while (excess > 0) {
        std::size_t widest = widths.size();
        for (std::size_t i = 0; i < widths.size(); ++i) {
            if (!may_give[i] || widths[i] <= least_left_width) continue;
            if (widest == widths.size() || widths[i] > widths[widest]) widest = i;
        }
        if (widest == widths.size()) break;
        --widths[widest];
        --excess;
    }
    return excess;
}

std::vector<int> natural_widths(const std::vector<TextColumn>& columns,
                                const std::vector<std::vector<std::string>>& rows) {
    std::vector<int> widths;
    widths.reserve(columns.size());
    for (const TextColumn& column : columns) widths.push_back(display_width(column.heading));
    for (const auto& row : rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            widths[i] = std::max(widths[i], display_width(row[i]));
        }
    }
    return widths;
}

int total_width(const std::vector<int>& widths) {
    const int gaps = gap * (static_cast<int>(widths.size()) - 1);
    return std::accumulate(widths.begin(), widths.end(), gaps);
}

std::vector<int> fitted_widths(const std::vector<TextColumn>& columns, std::vector<int> widths,
                               int width) {
    std::vector<bool> wraps;
    std::vector<bool> is_left;
    for (const TextColumn& column : columns) {
        wraps.push_back(column.wraps);
        is_left.push_back(column.align == Align::left && !column.wraps);
    }
    const int excess = narrow(widths, total_width(widths) - width, wraps);
    narrow(widths, excess, is_left);
    return widths;
}

std::string row_text(const std::vector<TextColumn>& columns, const std::vector<int>& widths,
                     const std::vector<std::string>& cells) {
    std::vector<std::vector<std::string>> lines_of_cell;
    std::size_t line_count = 1;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        lines_of_cell.push_back(columns[i].wraps
                                    ? wrapped_lines(cells[i], widths[i])
                                    : std::vector<std::string>{cut_to_width(cells[i], widths[i])});
        line_count = std::max(line_count, lines_of_cell.back().size());
    }
    std::string text;
    for (std::size_t line = 0; line < line_count; ++line) {
        std::string row;
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const auto& lines = lines_of_cell[i];
            if (i > 0) row += spaces(gap);
            row += padded(line < lines.size() ? lines[line] : "", widths[i], columns[i].align);
        }
        trim_right(row);
        text += row + '\n';
    }
    return text;
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

std::string_view first_word(std::string_view text) {
    return text.substr(0, text.find(' '));
}

std::string_view without_stops(std::string_view word) {
    return word.substr(0, word.find_last_not_of(".,;:)") + 1);
}

bool is_unit(std::string_view word) {
    constexpr std::array<std::string_view, 6> units{"h", "min", "kg", "m", "mol", "%"};
    return std::find(units.begin(), units.end(), without_stops(word)) != units.end();
}

/// The minutes behind hours, as in "4 h 10".
bool is_minutes(std::string_view word) {
    const std::string_view bare = without_stops(word);
    return bare.size() == 2 && is_digit(bare[0]) && is_digit(bare[1]);
}

}  // namespace

std::size_t end_of_word(std::string_view text) {
    std::size_t end = first_word(text).size();
    if (end == 0 || !is_digit(text[end - 1]) || end == text.size()) return end;
    const std::string_view unit = first_word(text.substr(end + 1));
    if (!is_unit(unit)) return end;
    end += 1 + unit.size();
    if (unit != "h" || end == text.size()) return end;
    const std::string_view minutes = first_word(text.substr(end + 1));
    return is_minutes(minutes) ? end + 1 + minutes.size() : end;
}

int display_width(std::string_view text) {
    int columns = 0;
    while (!text.empty()) {
        const Glyph glyph = first_glyph(text);
        columns += glyph.columns;
        text.remove_prefix(glyph.bytes.size());
    }
    return columns;
}

std::string cut_to_width(std::string_view text, int width) {
    if (display_width(text) <= width) return std::string(text);
    if (width <= 1) return width == 1 ? std::string(ellipsis) : std::string();
    std::string cut(beginning(text, width - 1));
    if (display_width(cut) > width - 1) cut.clear();  // a wide letter in a narrow place
    trim_right(cut);
    return cut + std::string(ellipsis);
}

std::vector<std::string> wrapped_lines(std::string_view text, int width) {
    SUNFLECK_REQUIRE(width > 0, "lines need a width");
    std::vector<std::string> lines{""};
    while (!text.empty()) {
        const std::size_t end = end_of_word(text);
        std::string_view word = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        if (word.empty()) continue;
        std::string& line = lines.back();
        if (!line.empty() && display_width(line) + 1 + display_width(word) <= width) {
            line += ' ' + std::string(word);
            continue;
        }
        if (!line.empty()) lines.emplace_back();
        while (display_width(word) > width) {
            const std::string_view part = beginning(word, width);
            lines.back() = part;
            word.remove_prefix(part.size());
            if (!word.empty()) lines.emplace_back();
        }
        lines.back() += word;
    }
    return lines;
}

std::string wrapped_text(std::string_view text, int width, int indent) {
    // The first line is as narrow as the others, so that a paragraph keeps one right edge.
    std::string wrapped;
    for (const std::string& line : wrapped_lines(text, std::max(width - indent, 1))) {
        if (!wrapped.empty()) wrapped += '\n' + spaces(indent);
        wrapped += line;
    }
    return wrapped;
}

TextTable::TextTable(std::vector<TextColumn> columns) : columns_(std::move(columns)) {
    SUNFLECK_REQUIRE(!columns_.empty(), "a table needs a column");
}

void TextTable::add_row(std::vector<std::string> cells) {
    SUNFLECK_REQUIRE(cells.size() == columns_.size(), "a row needs one cell per column");
    rows_.push_back(std::move(cells));
}

void TextTable::add_rule() {
    rows_.emplace_back();
}

std::string TextTable::text(int width) const {
    const std::vector<int> widths = fitted_widths(columns_, natural_widths(columns_, rows_), width);
    std::vector<std::string> headings;
    for (const TextColumn& column : columns_) headings.push_back(column.heading);
    const std::string line = rule(total_width(widths)) + '\n';
    std::string text = row_text(columns_, widths, headings) + line;
    for (const auto& row : rows_) text += row.empty() ? line : row_text(columns_, widths, row);
    return text;
}

}  // namespace sunfleck::output
