#include "sunfleck/base/csv.h"

#include <catch2/catch.hpp>

#include <random>

namespace sunfleck {
namespace {

using Rows = std::vector<std::vector<std::string>>;

Rows texts(const CsvTable& table) {
    Rows rows;
    for (const CsvRow& row : table.rows) {
        rows.emplace_back();
        for (const CsvField& field : row.fields) rows.back().push_back(field.text);
    }
    return rows;
}

Problem problem_of(const std::string& text) {
    const auto table = parse_csv(text, "pots.csv");
    REQUIRE_FALSE(table);
    REQUIRE(table.error().size() == 1);
    return table.error().front();
}

}  // namespace

TEST_CASE("Tables are read with the delimiter they are written with", "[base][published]") {
    // RFC 4180 section 2, rules 1 to 7, in its examples' form with a grower's words, and the
    // variants that spreadsheets write.
    struct Row {
        const char* text;
        char delimiter;
        Rows rows;
    };
    const std::vector<Row> table{
        {"fir,elm,oak\r\nyew,ash,bay\r\n", ',', {{"fir", "elm", "oak"}, {"yew", "ash", "bay"}}},
        {"fir,elm,oak\r\nyew,ash,bay", ',', {{"fir", "elm", "oak"}, {"yew", "ash", "bay"}}},
        {"\"fir\",\"e\r\nlm\",\"oak\"\r\nyew,ash,bay",
         ',',
         {{"fir", "e\r\nlm", "oak"}, {"yew", "ash", "bay"}}},
        {"\"fir\",\"e\"\"lm\",\"oak\"", ',', {{"fir", "e\"lm", "oak"}}},
        {"a;b\n1,5;2,5\n", ';', {{"a", "b"}, {"1,5", "2,5"}}},
        {"a\tb\n\t2\n", '\t', {{"a", "b"}, {"", "2"}}},
        {"a\rb\r", ',', {{"a"}, {"b"}}},
        {"\xEF\xBB\xBF"
         "a,b\n",
         ',',
         {{"a", "b"}}},
        {"sep=;\r\na,x;b\r\n", ';', {{"a,x", "b"}}},
        {"\"sep=;\"\na;b\n", ';', {{"a", "b"}}},
        {"\"a;b;c\",d\n", ',', {{"a;b;c", "d"}}},
        {"a, b ,\" c \"\n", ',', {{"a", "b", " c "}}},
        {"a,b\n\n1,2\n\n,\n \n", ',', {{"a", "b"}, {"1", "2"}}},
        {"\n\na;b\n", ';', {{"a", "b"}}},
        {"a\n\"\"\n", ',', {{"a"}, {""}}},
        {"", ',', {}},
    };
    for (const Row& row : table) {
        CAPTURE(row.text);
        const auto read = parse_csv(row.text, "t.csv");
        REQUIRE(read);
        CHECK(read->delimiter == row.delimiter);
        CHECK(texts(*read) == row.rows);
    }
}

TEST_CASE("Every field knows its line and column", "[base][property]") {
    const auto table = parse_csv("a,b\r\n\r\n\"x\r\ny\",é,z\n,q\n", "t.csv");
    REQUIRE(table);
    const auto place = [&table](std::size_t row, std::size_t field) {
        const CsvField& f = table->rows.at(row).fields.at(field);
        return std::pair(f.line, f.column);
    };
    CHECK(place(0, 1) == std::pair(1, 3));
    CHECK(place(1, 0) == std::pair(3, 1));
    CHECK(place(1, 1) == std::pair(4, 4));  // behind the line end inside the quotes
    CHECK(place(1, 2) == std::pair(4, 6));  // é is one character
    CHECK(place(2, 0) == std::pair(5, 1));
    CHECK(place(2, 1) == std::pair(5, 2));
}

TEST_CASE("What is no table is refused where it breaks", "[base][property]") {
    struct Row {
        std::string text;
        const char* code;
        int line;
        int column;
    };
    const std::vector<Row> rows{
        {"a,b\nx\"y,2\n", "csv_stray_quote", 2, 2},
        {"a,b\n\"x\"y,2\n", "csv_stray_quote", 2, 4},
        {"a,b\n1,\"x\n2,3\n", "csv_open_quote", 2, 3},
        {"a,b\n1,\xE9\n", "not_utf8", 2, 3},
        {std::string("a,b\n1,\0", 7), "csv_nul", 2, 3},
        {"\xFF\xFE\x61", "not_utf8", 1, 1},
        {std::string(1000, ','), "csv_row_too_long", 1, 1001},
    };
    for (const Row& row : rows) {
        const Problem problem = problem_of(row.text);
        CAPTURE(row.code, problem.message);
        CHECK(problem.code == row.code);
        CHECK(problem.file == "pots.csv");
        CHECK(problem.line == row.line);
        CHECK(problem.column == row.column);
        CHECK_FALSE(problem.mend.empty());
    }
}

TEST_CASE("What is written is read back, whatever the fields hold", "[base][property]") {
    std::mt19937_64 bits(6);
    const std::vector<std::string> bricks{"a", " ", ",", ";", "\t", "\"", "\n", "\r\n", "é", "1"};
    for (int round = 0; round < 300; ++round) {
        const char delimiter = std::string_view(",;\t")[bits() % 3];
        // The header, so that the reader finds the delimiter.
        Rows rows{{"h", "i", "j"}};
        std::string text = std::string("h") + delimiter + "i" + delimiter + "j\n";
        for (int row = 0; row < 4; ++row) {
            std::vector<std::string> fields(3);
            for (std::string& field : fields) {
                for (std::uint64_t n = bits() % 5; n > 0; --n)
                    field += bricks[bits() % bricks.size()];
            }
            fields[0] += 'x';  // not all empty: that would be a blank line
            rows.push_back(fields);
            text += csv_line(fields, delimiter) + '\n';
        }
        CAPTURE(text);
        const auto read = parse_csv(text, "t.csv");
        REQUIRE(read);
        CHECK(texts(*read) == rows);
    }
}

TEST_CASE("A header line keeps its delimiter to be found", "[base][property]") {
    const std::vector<std::string> header{"a;b", "c\td", "e,f", "id"};
    for (const char delimiter : {',', ';', '\t'}) {
        const auto read = parse_csv(csv_header_line(header, delimiter) + "\n", "t.csv");
        REQUIRE(read);
        CHECK(read->delimiter == delimiter);
        CHECK(texts(*read) == Rows{header});
    }
}

TEST_CASE("Codes that spreadsheets spoil are guarded and come back", "[base][property]") {
    for (const char* spoilt : {"007", "1E3", "=A1", "+4", "-2", "@x", ".5", "TRUE", "false", "MAR1",
                               "Sept-2", "may", "2026-05-01", "=\"x\"", "0\"5"}) {
        CAPTURE(spoilt);
        CHECK(guarded_for_spreadsheets(spoilt) != spoilt);
        CHECK(guarded_for_spreadsheets(spoilt).starts_with("=\""));
        CHECK(without_guard(guarded_for_spreadsheets(spoilt)) == spoilt);
    }
    for (const char* plain : {"M07", "A-3", "Acer palmatum", "Maple", "é1", "", "Marsh bench 3"}) {
        CAPTURE(plain);
        CHECK(guarded_for_spreadsheets(plain) == plain);
        CHECK(without_guard(plain) == plain);
    }
    CHECK(without_guard("=\"a\"b\"") == "=\"a\"b\"");
}

TEST_CASE("Damaged tables never crash the reader", "[base][property]") {
    const std::string sound =
        "id;name;pot\r\nM07;\"Little \"\"maple\"\"\";4,5\r\n007;\xC3\xA9rable;\"1\r\n2\"\r\n";
    std::mt19937_64 bits(7);
    int refused = 0;
    for (int round = 0; round < 1000; ++round) {
        std::string text = sound;
        for (std::uint64_t n = bits() % 4 + 1; n > 0; --n) {
            const std::size_t at = bits() % (text.size() + 1);
            const auto any = static_cast<char>(bits() % 256);
            const char special = "\";,\n\r "[bits() % 6];
            const char byte = bits() % 4 == 0 ? any : special;
            switch (bits() % 3) {
                case 0:
                    text.insert(at, 1, byte);
                    break;
                case 1:
                    text.erase(at, bits() % 5);
                    break;
                default:
                    if (at < text.size()) text[at] = byte;
                    break;
            }
        }
        const auto read = parse_csv(text, "t.csv");
        if (read) continue;
        ++refused;
        CHECK_FALSE(read.error().front().message.empty());
        CHECK(read.error().front().line > 0);
    }
    CHECK(refused > 100);
    CHECK(refused < 1000);
}

}  // namespace sunfleck
