#include "sunfleck/base/json_tree.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <random>
#include <string>

using namespace sunfleck;

namespace {

/// The same value as the library's own tree reads it, from our tree.
nlohmann::json rebuilt(const JsonNode& node) {
    switch (node.kind) {
        case JsonKind::null:
            return nullptr;
        case JsonKind::boolean:
            return node.boolean;
        case JsonKind::number:
            return nlohmann::json::parse(node.text);
        case JsonKind::text:
            return node.text;
        case JsonKind::array: {
            auto list = nlohmann::json::array();
            for (const JsonNode& child : node.children) list.push_back(rebuilt(child));
            return list;
        }
        case JsonKind::object: {
            auto object = nlohmann::json::object();
            for (const JsonNode& child : node.children) object[child.key] = rebuilt(child);
            return object;
        }
    }
    return {};
}

/// Every value's bytes, read alone, give the value.
void check_ranges(const JsonTree& tree, const JsonNode& node) {
    const std::string text = tree.text().substr(node.begin, node.end - node.begin);
    CAPTURE(text);
    CHECK(nlohmann::json::parse(text) == rebuilt(node));
    for (const JsonNode& child : node.children) {
        if (node.kind == JsonKind::object) {
            const std::string key =
                tree.text().substr(child.key_begin, child.key_end - child.key_begin);
            CHECK(nlohmann::json::parse(key) == child.key);
        }
        check_ranges(tree, child);
    }
}

class RandomJson {
  public:
    explicit RandomJson(unsigned seed) : bits_(seed) {}

    std::string value(int depth) {
        switch (below(depth > 0 ? 9 : 7)) {
            case 0:
                return "null";
            case 1:
                return "true";
            case 2:
                return "false";
            case 3:
                return pick(
                    {"0", "-0", "12", "-7.5", "1e5", "2.50E-3", "1e-400", "123456789012345678901"});
            case 4:
                return pick({"-1.0", "0.1", "100", "3e+2"});
            case 5:
            case 6:
                return text();
            case 7:
                return list(depth);
            default:
                return object(depth);
        }
    }
    std::string space() { return pick({"", "", " ", "\n  ", "\t", "\r\n"}); }

  private:
    unsigned below(unsigned count) { return static_cast<unsigned>(bits_() % count); }
    std::string pick(std::initializer_list<const char*> choices) {
        return *(choices.begin() + below(static_cast<unsigned>(choices.size())));
    }
    std::string text() {
        return pick({R"("")", R"("a, b: {c}")", R"("quote \" and \\")", R"("\u00e9\ud83c\udf33")",
                     "\"\xC3\xA9t\xC3\xA9\"", R"("]}\n")", R"("\\\\")"});
    }
    std::string list(int depth) {
        std::string text = "[" + space();
        for (unsigned i = 0, count = below(4); i < count; ++i) {
            text += (i > 0 ? "," : "") + space() + value(depth - 1) + space();
        }
        return text + "]";
    }
    std::string object(int depth) {
        std::string text = "{" + space();
        for (unsigned i = 0, count = below(4); i < count; ++i) {
            text += (i > 0 ? "," : "") + space() + "\"k\\t\\\"" + std::to_string(i) + "\"" +
                    space() + ":" + space() + value(depth - 1) + space();
        }
        return text + "}";
    }
    std::mt19937_64 bits_;
};

struct WrongText {
    const char* text;
    int line;
    int column;
    const char* message_part;
};

}  // namespace

TEST_CASE("the tree holds what the library reads, and each value's bytes", "[base][cross]") {
    for (unsigned seed = 0; seed < 300; ++seed) {
        RandomJson random(seed);
        const std::string text = random.space() + random.value(5) + random.space();
        CAPTURE(seed, text);
        const JsonReading reading = read_json(text, "r.json");
        CHECK(reading.problems.empty());
        REQUIRE(reading.tree);
        CHECK(rebuilt(reading.tree->root()) == nlohmann::json::parse(text));
        check_ranges(*reading.tree, reading.tree->root());
    }
}

TEST_CASE("columns count characters and a byte order mark takes none", "[base][property]") {
    const JsonReading reading =
        read_json("\xEF\xBB\xBF{\"\xC3\xA9t\xC3\xA9\": 1,\r\n \"b\": [true, 7]}", "s.json");
    REQUIRE(reading.tree);
    const JsonTree& tree = *reading.tree;
    CHECK(tree.place(tree.root().begin) == TextPlace{1, 1});
    CHECK(tree.place(tree.root().children[0].begin) == TextPlace{1, 9});
    CHECK(tree.place(tree.at("/b/1")->begin) == TextPlace{2, 14});
    CHECK(tree.at("/b/2") == nullptr);
    CHECK(tree.at("/b/x") == nullptr);
}

TEST_CASE("pointers escape as RFC 6901 asks and lead back to the value", "[base][published]") {
    // RFC 6901 (2013), section 5: the pointers of its example document.
    const JsonReading reading = read_json(
        R"({"foo": ["bar", "baz"], "": 0, "a/b": 1, "c%d": 2, "e^f": 3, "g|h": 4, "i\\j": 5,
            "k\"l": 6, " ": 7, "m~n": 8})",
        "rfc.json");
    REQUIRE(reading.tree);
    CHECK(reading.tree->at("") == &reading.tree->root());
    CHECK(reading.tree->at("/foo/0")->text == "bar");
    const std::vector<std::pair<const char*, double>> numbers{
        {"/", 0},     {"/a~1b", 1}, {"/c%d", 2}, {"/e^f", 3}, {"/g|h", 4},
        {"/i\\j", 5}, {"/k\"l", 6}, {"/ ", 7},   {"/m~0n", 8}};
    for (const auto& [pointer, number] : numbers) {
        CAPTURE(pointer);
        REQUIRE(reading.tree->at(pointer) != nullptr);
        CHECK(reading.tree->at(pointer)->number == Approx(number));
    }
    CHECK(pointer_to("/x", "m~n/o") == "/x/m~0n~1o");
    CHECK(pointer_to("", 3) == "/3");
}

TEST_CASE("a text that is not JSON is told by place, fault and mend", "[base][property]") {
    const std::vector<WrongText> wrong{
        {"", 1, 1, "nothing in this file"},
        {" \n ", 2, 2, "nothing in this file"},
        {R"({"a": 1)", 1, 8, "ends too early"},
        {R"({"a": 1,})", 1, 9, "comma too many before"},
        {R"({"a": [1,, 2]})", 1, 10, "comma too many"},
        {R"({"a": 1 "b": 2})", 1, 9, "comma is missing"},
        {R"({"a" 1})", 1, 6, "colon is missing"},
        {R"({"a": "b" : 3})", 1, 11, "colon stands where none may"},
        {R"({"a":})", 1, 6, "key has no value"},
        {R"({a: 1})", 1, 2, "word a means nothing"},
        {R"({'a': 1})", 1, 2, "single quotes"},
        {R"({"a": “b”})", 1, 7, "curly quote"},
        {R"({"a": «b»})", 1, 7, "curly quote"},
        {R"({"a": …})", 1, 7, "character means nothing"},
        {R"({"a": NaN})", 1, 7, "word NaN"},
        {R"({"a": True})", 1, 7, "word True"},
        {R"({"a": 0,5})", 1, 9, "number stands where a key"},
        {R"({"a": .5})", 1, 7, "not a number as JSON"},
        {R"({"a": 05})", 1, 8, "not a number as JSON"},
        {R"({"a": 1e999})", 1, 7, "too large"},
        {"{\"a\": \"b\n\"}", 1, 7, "not closed on its line"},
        {R"({"a": "C:\data"})", 1, 7, "stands for nothing"},
        {R"({"a": "\ud800"})", 1, 7, "escape"},
        {R"({"a": [1, 2}])", 1, 12, "closes nothing"},
        {R"({"a": 1} x)", 1, 10, "goes on after its end"},
        {"{\"a\": 1 // one\n}", 1, 9, "no comments"},
        {R"({"a": trueish})", 1, 7, "word trueish"},
        {"{\"a\": \xFF}", 1, 7, "not UTF-8"},
        {"\xFF\xFE{", 1, 1, "UTF-16"},
    };
    for (const auto& [text, line, column, part] : wrong) {
        CAPTURE(text);
        const JsonReading reading = read_json(text, "w.json");
        CHECK_FALSE(reading.tree);
        REQUIRE(reading.problems.size() == 1);
        const Problem& problem = reading.problems.front();
        CHECK(problem.file == "w.json");
        CHECK(problem.line == line);
        CHECK(problem.column == column);
        CHECK_THAT(problem.message, Catch::Contains(part));
        CHECK_FALSE(problem.mend.empty());
    }
}

TEST_CASE("a zero byte does not end the text unseen", "[base][property]") {
    const JsonReading reading = read_json(std::string("{}\0{", 4), "z.json");
    CHECK_FALSE(reading.tree);
    REQUIRE(reading.problems.size() == 1);
    CHECK(reading.problems[0].column == 3);
}

TEST_CASE("every key written twice is named, and the text can still be examined",
          "[base][property]") {
    const JsonReading reading = read_json(
        "{\"a\": {\"x\": 1, \"y\": 2, \"x\": 3},\n \"a\": [{\"z\": 1, \"\\u007a\": 2}]}", "t.json");
    CHECK(reading.tree);
    REQUIRE(reading.problems.size() == 3);
    CHECK(reading.problems[0].pointer == "/a/x");
    CHECK(reading.problems[0].column == 24);
    CHECK(reading.problems[1].pointer == "/a/0/z");
    CHECK(reading.problems[2].pointer == "/a");
    CHECK(reading.problems[2].line == 2);
}

TEST_CASE("nesting is read to 64 deep and no deeper", "[base][property]") {
    const auto nested = [](int depth) {
        const auto count = static_cast<std::size_t>(depth);
        return std::string(count, '[') + std::string(count, ']');
    };
    CHECK(read_json(nested(64), "").tree);
    for (const int depth : {65, 1000000}) {
        const JsonReading reading = read_json(nested(depth), "deep.json");
        CHECK_FALSE(reading.tree);
        REQUIRE(reading.problems.size() == 1);
        CHECK(reading.problems[0].code == "too_deep");
        CHECK(reading.problems[0].column == 65);
    }
}

TEST_CASE("a problem is placed at its pointer or at the nearest value around it",
          "[base][property]") {
    const JsonReading reading = read_json("{\n \"pots\": [{\"id\": 1}]}", "p.json");
    REQUIRE(reading.tree);
    Problem problem{.pointer = "/pots/0/id"};
    reading.tree->locate(problem);
    CHECK(problem.line == 2);
    CHECK(problem.column == 18);
    problem.pointer = "/pots/0/spot";
    reading.tree->locate(problem);
    CHECK(problem.column == 11);
    CHECK(problem.file == "p.json");
}

TEST_CASE("a text of too many values is refused before it fills the memory", "[base][property]") {
    std::string text = "[0";
    for (std::size_t i = 0; i < most_json_values; ++i) text += ",0";
    text += "]";
    const JsonReading reading = read_json(text, "many.json");
    CHECK_FALSE(reading.tree);
    REQUIRE(reading.problems.size() == 1);
    CHECK(reading.problems[0].code == "too_large");
}
