#include "sunfleck/base/csv.h"

#include "sunfleck/base/unicode_text.h"

#include <csv.h>

#include <algorithm>
#include <array>
#include <optional>

namespace sunfleck {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::array<char, 3> delimiters{',', ';', '\t'};

Problem csv_problem(const std::string& file, int line, int column, std::string code,
                    std::string message, std::string mend) {
    Problem problem{.code = std::move(code), .file = file, .line = line, .column = column};
    problem.message = std::move(message);
    problem.mend = std::move(mend);
    return problem;
}

/// Line and column as the text goes by, byte after byte.
class Cursor {
  public:
    void pass(char byte) {
        const bool ends_pair = byte == '\n' && last_ == '\r';
        last_ = byte;
        if (ends_pair) return;
        if (byte == '\n' || byte == '\r') {
            ++line_;
            column_ = 1;
        } else if ((static_cast<unsigned char>(byte) & 0xC0U) != 0x80U) {
            ++column_;
        }
    }
    [[nodiscard]] int line() const { return line_; }
    [[nodiscard]] int column() const { return column_; }

  private:
    int line_ = 1;
    int column_ = 1;
    char last_ = '\0';
};

/// The first line, as far as its unquoted end.
std::string_view first_line(std::string_view text) {
    bool is_quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '"') is_quoted = !is_quoted;
        if (!is_quoted && (text[i] == '\n' || text[i] == '\r')) return text.substr(0, i);
    }
    return text;
}

/// The delimiter the line has most of outside quotes; of equals the first to appear.
char delimiter_of(std::string_view line) {
    std::array<std::size_t, delimiters.size()> counts{};
    std::array<std::size_t, delimiters.size()> first_at{};
    bool is_quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (line[i] == '"') is_quoted = !is_quoted;
        const auto found = std::find(delimiters.begin(), delimiters.end(), line[i]);
        if (is_quoted || found == delimiters.end()) continue;
        const auto which = static_cast<std::size_t>(found - delimiters.begin());
        if (counts[which]++ == 0) first_at[which] = i;
    }
    std::size_t best = 0;
    for (std::size_t i = 1; i < delimiters.size(); ++i) {
        const bool is_earlier = counts[i] == counts[best] && first_at[i] < first_at[best];
        if (counts[i] > counts[best] || (counts[i] > 0 && is_earlier)) best = i;
    }
    return delimiters[best];
}

/// The delimiter that a first line "sep=;" states, with or without quotes.
std::optional<char> stated_delimiter(std::string_view line) {
    if (line.size() == 7 && line.front() == '"' && line.back() == '"') {
        line = line.substr(1, 5);
    }
    if (line.size() != 5 || (line.substr(0, 4) != "sep=" && line.substr(0, 4) != "SEP=")) {
        return std::nullopt;
    }
    const auto found = std::find(delimiters.begin(), delimiters.end(), line[4]);
    return found == delimiters.end() ? std::nullopt : std::optional(*found);
}

/// Feeds libcsv byte by byte, so that each field's place is known when it ends.
class Reader {
  public:
    Reader(const std::string& file, char delimiter) : file_(file) {
        table_.delimiter = delimiter;
        // No memory is taken before the first byte, so this cannot fail.
        csv_init(&parser_, CSV_STRICT | CSV_STRICT_FINI | CSV_EMPTY_IS_NULL);
        csv_set_delim(&parser_, static_cast<unsigned char>(delimiter));
        if (delimiter == '\t') csv_set_space_func(&parser_, is_blank_but_tab);
    }
    ~Reader() { csv_free(&parser_); }
    Reader(const Reader&) = delete;
    Reader& operator=(const Reader&) = delete;
    Reader(Reader&&) = delete;
    Reader& operator=(Reader&&) = delete;

    /// Passes over text that is no part of the table.
    void skip(std::string_view text) {
        for (const char byte : text) cursor_.pass(byte);
        start_ = cursor_;
    }

    Result<CsvTable> read(std::string_view text) {
        for (const char byte : text) {
            if (csv_parse(&parser_, &byte, 1, &Reader::end_field, &Reader::end_row, this) != 1) {
                return failure(parse_problem());
            }
            cursor_.pass(byte);
            const bool ends_line = byte == '\n' || byte == '\r';
            if (ended_field_ || (ends_line && row_.fields.empty() && is_line_blank_)) {
                start_ = cursor_;
            }
            is_line_blank_ = ended_row_ || (is_line_blank_ && (byte == ' ' || ends_line));
            ended_field_ = false;
            ended_row_ = false;
            if (problem_) return failure(*problem_);
        }
        if (csv_fini(&parser_, &Reader::end_field, &Reader::end_row, this) != 0) {
            return failure(csv_problem(file_, start_.line(), start_.column(), "csv_open_quote",
                                       "The quote that opens here is never closed.",
                                       "Write a quote at the end of the field."));
        }
        if (problem_) return failure(*problem_);
        return std::move(table_);
    }

  private:
    static int is_blank_but_tab(unsigned char byte) { return byte == CSV_SPACE ? 1 : 0; }

    static void end_field(void* text, std::size_t size, void* self) {
        auto& reader = *static_cast<Reader*>(self);
        reader.ended_field_ = true;
        const bool has_text = text != nullptr;
        reader.is_row_blank_ = reader.is_row_blank_ && !has_text;
        if (reader.row_.fields.size() == most_csv_fields) {
            reader.refuse_long_row();
            return;
        }
        CsvField field{.line = reader.start_.line(), .column = reader.start_.column()};
        if (has_text) field.text.assign(static_cast<const char*>(text), size);
        reader.row_.fields.push_back(std::move(field));
    }

    static void end_row(int /*end*/, void* self) {
        auto& reader = *static_cast<Reader*>(self);
        if (!reader.is_row_blank_) reader.table_.rows.push_back(std::move(reader.row_));
        reader.row_.fields.clear();
        reader.ended_row_ = true;
        reader.is_row_blank_ = true;
    }

    void refuse_long_row() {
        if (problem_) return;
        problem_ =
            csv_problem(file_, start_.line(), start_.column(), "csv_row_too_long",
                        "This row has more than " + std::to_string(most_csv_fields) + " fields.",
                        "Is this the right file?");
    }

    [[nodiscard]] Problem parse_problem() {
        if (csv_error(&parser_) != CSV_EPARSE) {
            return csv_problem(file_, cursor_.line(), cursor_.column(), "csv_too_large",
                               "The memory does not hold this field.", "Is this the right file?");
        }
        return csv_problem(file_, cursor_.line(), cursor_.column(), "csv_stray_quote",
                           "A quote stands where none may: inside a field without quotes, or the "
                           "field goes on after its closing quote.",
                           "Put the whole field in quotes and write each quote inside it twice.");
    }

    std::string file_;
    csv_parser parser_{};
    Cursor cursor_;
    Cursor start_;
    bool ended_field_ = false;
    bool ended_row_ = false;
    bool is_line_blank_ = true;
    bool is_row_blank_ = true;
    CsvRow row_;
    CsvTable table_;
    std::optional<Problem> problem_;
};

/// What makes the bytes no text at all, if anything.
std::optional<Problem> encoding_problem(std::string_view text, const std::string& file) {
    if (text.substr(0, 2) == "\xFF\xFE" || text.substr(0, 2) == "\xFE\xFF") {
        return csv_problem(file, 1, 1, "not_utf8", "This file is written in UTF-16.",
                           "Save it from the spreadsheet as \"CSV UTF-8\".");
    }
    const auto bad = first_byte_not_utf8(text);
    const std::size_t stop = std::min(bad.value_or(text.size()), text.find('\0'));
    if (stop >= text.size()) return std::nullopt;
    Cursor cursor;
    for (const char byte : text.substr(0, stop)) cursor.pass(byte);
    if (text[stop] == '\0') {
        return csv_problem(file, cursor.line(), cursor.column(), "csv_nul",
                           "A zero byte stands here: this is no text file.",
                           "Save it from the spreadsheet as \"CSV UTF-8\".");
    }
    return csv_problem(file, cursor.line(), cursor.column(), "not_utf8",
                       "This character is not written in UTF-8.",
                       "Save it from the spreadsheet as \"CSV UTF-8\".");
}

std::string newline_of(std::string_view text) {
    const std::size_t end = text.find_first_of("\r\n");
    if (end == std::string_view::npos || text[end] == '\n') return "\n";
    return text.substr(end, 2) == "\r\n" ? "\r\n" : "\r";
}

std::string in_quotes(std::string_view text) {
    std::string quoted = "\"";
    for (const char c : text) {
        quoted += c;
        if (c == '"') quoted += c;
    }
    return quoted + '"';
}

/// A line whose fields are quoted when they hold one of `special`, a quote or a line end, or begin
/// or end with a blank.
std::string line_of(std::span<const std::string> fields, char delimiter, std::string_view special) {
    constexpr std::string_view blanks = " \t";
    std::string line;
    for (const std::string& field : fields) {
        if (&field != fields.data()) line += delimiter;
        const bool is_lone = fields.size() == 1 && field.empty();
        const bool has_blank_end =
            !field.empty() && (blanks.find(field.front()) != std::string_view::npos ||
                               blanks.find(field.back()) != std::string_view::npos);
        const bool has_special = field.find_first_of("\"\r\n") != std::string::npos ||
                                 field.find_first_of(special) != std::string::npos;
        line += is_lone || has_blank_end || has_special ? in_quotes(field) : field;
    }
    return line;
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool is_ascii_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

std::string lower_case(std::string_view text) {
    std::string lower(text);
    for (char& c : lower) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return lower;
}

/// "MAR1", "Sept-2", "may": what spreadsheets in English and its neighbours turn into dates.
bool looks_like_month(std::string_view text) {
    constexpr std::array<std::string_view, 28> months{
        "jan", "feb", "mar", "apr", "may", "jun", "jul",  "aug",  "sep", "oct",
        "nov", "dec", "mai", "okt", "dez", "avr", "juin", "juil", "ene", "abr",
        "ago", "dic", "gen", "mag", "giu", "lug", "set",  "mrt"};
    const std::string lower = lower_case(text);
    const auto starts = [&lower](std::string_view month) { return lower.starts_with(month); };
    if (std::none_of(months.begin(), months.end(), starts)) return false;
    // A month is followed by figures at once or after one separator, or by nothing.
    std::size_t letters = 0;
    while (letters < lower.size() && is_ascii_letter(lower[letters])) ++letters;
    const std::string_view rest = std::string_view(lower).substr(letters);
    const std::size_t figures = rest.find_first_of("0123456789");
    return letters <= 9 && (rest.empty() || figures <= 1);
}

bool would_be_spoilt(std::string_view text) {
    if (text.empty()) return false;
    const char first = text.front();
    if (is_digit(first) || std::string_view("=+-@.").find(first) != std::string_view::npos) {
        return true;
    }
    const std::string lower = lower_case(text);
    return lower == "true" || lower == "false" || looks_like_month(text);
}

}  // namespace

Result<CsvTable> parse_csv(std::string_view text, const std::string& file) {
    if (auto problem = encoding_problem(text, file)) return failure(std::move(*problem));
    const bool has_mark = text.starts_with(byte_order_mark);
    if (has_mark) text.remove_prefix(byte_order_mark.size());
    const std::string_view head = first_line(text);
    const auto stated = stated_delimiter(head);
    std::size_t body = 0;
    if (stated) {
        body = head.size();
    } else {
        // Blank lines at the start say nothing about the delimiter.
        body = std::min(text.find_first_not_of("\r\n"), text.size());
    }
    Reader reader(file, stated ? *stated : delimiter_of(first_line(text.substr(body))));
    reader.skip(text.substr(0, body));
    auto table = reader.read(text.substr(body));
    if (!table) return table;
    table->has_mark = has_mark;
    table->newline = newline_of(text);
    return table;
}

std::string csv_line(std::span<const std::string> fields, char delimiter) {
    return line_of(fields, delimiter, std::string_view(&delimiter, 1));
}

std::string csv_header_line(std::span<const std::string> fields, char delimiter) {
    return line_of(fields, delimiter, std::string_view(delimiters.data(), delimiters.size()));
}

std::string guarded_for_spreadsheets(std::string_view text) {
    if (!would_be_spoilt(text)) return std::string(text);
    return '=' + in_quotes(text);
}

std::string without_guard(std::string_view text) {
    if (text.size() < 3 || !text.starts_with("=\"") || !text.ends_with('"')) {
        return std::string(text);
    }
    const std::string_view inner = text.substr(2, text.size() - 3);
    std::string plain;
    for (std::size_t i = 0; i < inner.size(); ++i) {
        plain += inner[i];
        if (inner[i] != '"') continue;
        if (i + 1 == inner.size() || inner[i + 1] != '"') return std::string(text);
        ++i;
    }
    return plain;
}

}  // namespace sunfleck
