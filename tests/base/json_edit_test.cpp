#include "sunfleck/base/json_edit.h"

#include "sunfleck/base/json_text.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <random>

using namespace sunfleck;

namespace {

JsonTree tree_of(std::string text) {
    JsonReading reading = read_json(std::move(text), "e.json");
    REQUIRE(reading.tree);
    return *reading.tree;
}

}  // namespace

TEST_CASE("a text without edits is given back byte for byte", "[base][property]") {
    const std::string text = "\xEF\xBB\xBF{ \"b\" :1.50e0 ,\r\n\t\"a\":[ ]}\r\n\n";
    const JsonTree tree = tree_of(text);
    CHECK(JsonEdit(tree).text() == text);
}

TEST_CASE("an edit changes its own bytes only and follows its neighbours' spacing",
          "[base][property]") {
    const JsonTree tree =
        tree_of("{\n    \"id\" : \"M07\",\n    \"spot\" : \"A-1\",\n    \"soil_l\" : 0.380\n}\n");
    JsonEdit replaced(tree);
    replaced.set_member(tree.root(), "spot", "\"A-2\"");
    CHECK(replaced.text() ==
          "{\n    \"id\" : \"M07\",\n    \"spot\" : \"A-2\",\n    \"soil_l\" : 0.380\n}\n");
    JsonEdit added(tree);
    added.set_member(tree.root(), "name", "\"Acer\"", "id");
    CHECK(added.text() ==
          "{\n    \"id\" : \"M07\",\n    \"name\" : \"Acer\",\n    \"spot\" : \"A-1\",\n"
          "    \"soil_l\" : 0.380\n}\n");
    JsonEdit appended(tree);
    appended.set_member(tree.root(), "count", "2");
    CHECK(appended.text() ==
          "{\n    \"id\" : \"M07\",\n    \"spot\" : \"A-1\",\n    \"soil_l\" : 0.380,\n"
          "    \"count\" : 2\n}\n");
    JsonEdit erased(tree);
    erased.erase_member(tree.root(), "spot");
    erased.erase_member(tree.root(), "not there");
    CHECK(erased.text() == "{\n    \"id\" : \"M07\",\n    \"soil_l\" : 0.380\n}\n");
}

TEST_CASE("members come and go at every place of an object", "[base][cross]") {
    for (const char* text : {R"({})", R"({ })", R"({"a":1})", R"({ "a": 1 })",
                             R"({"a":1,"b":2,"c":3})", "{\n\t\"a\": 1,\n\t\"b\": [ 2 ]\n}"}) {
        const JsonTree tree = tree_of(text);
        const auto before = nlohmann::json::parse(text);
        for (const char* key : {"a", "b", "c", "d"}) {
            CAPTURE(text, key);
            JsonEdit erased(tree);
            erased.erase_member(tree.root(), key);
            auto expected = before;
            expected.erase(key);
            CHECK(nlohmann::json::parse(erased.text()) == expected);
            for (const char* after : {"", "a", "b"}) {
                JsonEdit set(tree);
                set.set_member(tree.root(), key, "\"new\"", after);
                expected = before;
                expected[key] = "new";
                CHECK(nlohmann::json::parse(set.text()) == expected);
            }
        }
    }
}

TEST_CASE("quoted text and number text read back as they were", "[base][cross]") {
    std::mt19937_64 bits(7);
    for (int i = 0; i < 2000; ++i) {
        const double value = std::ldexp(static_cast<double>(bits() >> 11U) - 4503599627370496.0,
                                        static_cast<int>(bits() % 200U) - 100);
        CHECK(nlohmann::json::parse(json_number(value)).get<double>() ==
              Approx(value).epsilon(0.0));
    }
    CHECK(json_number(-0.0) == "0");
    CHECK(json_number(0.1) == "0.1");
    for (const std::string& text :
         {std::string(), std::string("a\"b\\c/\t\r\n\x01\x1f\x7f"),
          std::string("\xC3\xA9\xF0\x9F\x8C\xB3"), std::string(1, '\0')}) {
        CHECK(nlohmann::json::parse(json_quoted(text)) == text);
    }
}

TEST_CASE("items come and go at every place of an array", "[base][cross]") {
    // Against the same change made by another JSON library.
    for (const char* text : {"[]", "[ ]", "[1]", "[ 1 ]", "[1,2,3]", "[\n  [1],\n  [2]\n]"}) {
        const JsonTree tree = tree_of(text);
        const auto before = nlohmann::json::parse(text);
        for (std::size_t index = 0; index <= before.size() + 1; ++index) {
            CAPTURE(text, index);
            JsonEdit inserted(tree);
            inserted.insert_item(tree.root(), index, "9");
            auto expected = before;
            const std::size_t at = std::min(index, before.size());
            expected.insert(expected.begin() + static_cast<std::ptrdiff_t>(at), 9);
            CHECK(nlohmann::json::parse(inserted.text()) == expected);
            if (index >= before.size()) continue;
            JsonEdit erased(tree);
            erased.erase_item(tree.root(), index);
            expected = before;
            expected.erase(index);
            CHECK(nlohmann::json::parse(erased.text()) == expected);
        }
    }
}

TEST_CASE("a new item stands as its neighbours do", "[base][property]") {
    const JsonTree tree = tree_of("[\n  1,\n  2\n]");
    JsonEdit edit(tree);
    edit.insert_item(tree.root(), 2, "3");
    CHECK(edit.text() == "[\n  1,\n  2,\n  3\n]");
    const JsonTree one = tree_of("[\n  1\n]");
    JsonEdit first(one);
    first.insert_item(one.root(), 0, "0");
    CHECK(first.text() == "[\n  0,\n  1\n]");
}
