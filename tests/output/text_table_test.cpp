#include "sunfleck/output/text_table.h"

#include "sunfleck/base/require.h"

#include <catch2/catch.hpp>

#include <sstream>

using namespace sunfleck;
using namespace sunfleck::output;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) lines.push_back(line);
    return lines;
}

}  // namespace

TEST_CASE("width counts columns, not bytes", "[output][property]") {
    CHECK(display_width("Long bench") == 10);
    CHECK(display_width("Ficus à feuilles") == 16);
    CHECK(display_width("e\u0301") == 1);  // e and a combining acute accent
    CHECK(display_width("桜の木") == 6);
    CHECK(display_width("4 h 10 · 57°") == 12);
    CHECK(display_width("\xff\xfe") == 2);
    CHECK(display_width("\xe6\xa1") == 2);  // a character that breaks off
    CHECK(display_width("") == 0);
}

TEST_CASE("a text that is cut ends with an ellipsis and fits", "[output][property]") {
    CHECK(cut_to_width("Long bench", 10) == "Long bench");
    CHECK(cut_to_width("Long bench", 9) == "Long ben…");
    CHECK(cut_to_width("Long bench", 6) == "Long…");
    CHECK(cut_to_width("Long bench", 1) == "…");
    CHECK(cut_to_width("Long bench", 0).empty());
    for (int width = 0; width < 8; ++width) {
        CAPTURE(width);
        CHECK(display_width(cut_to_width("桜の木と梅", width)) <= width);
    }
}

TEST_CASE("wrapped lines keep every word and the width", "[output][property]") {
    CHECK(wrapped_lines("4 h 10 of full sun here", 10) ==
          std::vector<std::string>{"4 h 10 of", "full sun", "here"});
    CHECK(wrapped_lines("", 10) == std::vector<std::string>{""});
    CHECK(wrapped_lines("abcdefghij kl", 4) ==
          std::vector<std::string>{"abcd", "efgh", "ij", "kl"});
    CHECK(wrapped_text("one two three", 10, 2) == "one two\n  three");
}

TEST_CASE("a figure and its unit stay on one line", "[output][property]") {
    CHECK(wrapped_lines("it falls to 2 h 05; 35 min at most", 13) ==
          std::vector<std::string>{"it falls to", "2 h 05;", "35 min at", "most"});
    CHECK(wrapped_lines("in all 3.1 kg, 14 mol, 45 %.", 9) ==
          std::vector<std::string>{"in all", "3.1 kg,", "14 mol,", "45 %."});
    // A lone h, and a figure behind a figure, are words like others.
    CHECK(wrapped_lines("letter h 12 13", 8) == std::vector<std::string>{"letter h", "12 13"});
}

TEST_CASE("figures stand to the right, words to the left", "[output][property]") {
    TextTable table({{"spot"}, {"full sun", Align::right}});
    table.add_row({"A-1", "4 h 10"});
    table.add_row({"Größe-12", "none"});
    CHECK(table.text() ==
          "spot      full sun\n"
          "──────────────────\n"
          "A-1         4 h 10\n"
          "Größe-12      none\n");
}

TEST_CASE("a table never passes the width asked", "[output][property]") {
    TextTable table({{"pot"}, {"to"}, {"kg", Align::right}, {"reason", Align::left, true}});
    const std::string reason =
        "4 h 10 of full sun in the hot hours here; 35 min there. It dries out first of all.";
    table.add_row({"A name of forty letters and more than that", "Long bench 12", "12.5", reason});
    table.add_rule();
    table.add_row({"B", "Post 1", "3", ""});
    for (const int width : {80, 60, 50}) {
        CAPTURE(width);
        std::string words;
        for (const std::string& line : lines_of(table.text(width))) {
            CHECK(display_width(line) <= width);
            words += line;
        }
        CHECK(words.find("12.5") != std::string::npos);
    }
    CHECK(table.text(80).find("forty letters…") == std::string::npos);
    CHECK(table.text(60).find("…") != std::string::npos);
}

TEST_CASE("a row of another length is a bug", "[output][property]") {
    TextTable table({{"spot"}, {"full sun"}});
    CHECK_THROWS_AS(table.add_row({"A-1"}), InternalError);
}
