#include "sunfleck/document/command.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <random>

using namespace sunfleck;
using document::EditStep;
using document::InsertItem;
using document::Remove;
using document::SetValue;
using nlohmann::json;

namespace {

std::string after(const std::string& text, const EditStep& step) {
    const auto changed = document::with_steps(text, {step});
    REQUIRE(changed);
    return *changed;
}

}  // namespace

TEST_CASE("a step changes its own bytes only", "[document][property]") {
    const std::string text = "{ \"a\" : 1.50,\n  \"list\": [ {\"x\": 1}, {\"x\": 2} ] }\n";
    CHECK(after(text, SetValue{"/a", "2"}) ==
          "{ \"a\" : 2,\n  \"list\": [ {\"x\": 1}, {\"x\": 2} ] }\n");
    CHECK(after(text, SetValue{"/list/1/x", "7"}) ==
          "{ \"a\" : 1.50,\n  \"list\": [ {\"x\": 1}, {\"x\": 7} ] }\n");
    CHECK(after(text, InsertItem{"/list", InsertItem::at_end, "{\"x\": 3}"}) ==
          "{ \"a\" : 1.50,\n  \"list\": [ {\"x\": 1}, {\"x\": 2}, {\"x\": 3} ] }\n");
    CHECK(after(text, Remove{"/list/0"}) == "{ \"a\" : 1.50,\n  \"list\": [ {\"x\": 2} ] }\n");
    CHECK(after(text, Remove{"/list/9"}) == text);
    CHECK(after(text, Remove{"/nothing"}) == text);
}

TEST_CASE("a list that is not there yet is made", "[document][property]") {
    CHECK(json::parse(after("{\"a\": 1}", InsertItem{"/pots", 0, "{\"id\": \"M1\"}"})) ==
          json::parse(R"({"a": 1, "pots": [{"id": "M1"}]})"));
}

TEST_CASE("a step without a place is refused", "[document][property]") {
    for (const EditStep& step : {EditStep{SetValue{"/b/c", "1"}}, EditStep{SetValue{"/a/c", "1"}},
                                 EditStep{InsertItem{"/a", 0, "1"}}, EditStep{Remove{"/b/c/d"}},
                                 EditStep{Remove{""}}, EditStep{SetValue{"no slash", "1"}}}) {
        const auto changed = document::with_steps("{\"a\": 1}", {step});
        CAPTURE(step.index());
        REQUIRE_FALSE(changed);
        CHECK(changed.error().front().code == "no_such_place");
    }
}

TEST_CASE("steps agree with the same changes by another library", "[document][cross]") {
    std::mt19937_64 bits(5);
    const auto below = [&](std::size_t n) { return static_cast<std::size_t>(bits() % n); };
    std::string text = R"({"list": [1, 2, 3], "object": {"a/b": 1, "c~d": 2}})";
    json expected = json::parse(text);
    for (int i = 0; i < 500; ++i) {
        const std::string value = std::to_string(i);
        const std::size_t size = expected["list"].size();
        EditStep step;
        switch (below(4)) {
            case 0: {
                const std::size_t at = below(size + 2);
                step = InsertItem{"/list", at, value};
                const auto place = static_cast<std::ptrdiff_t>(std::min(at, size));
                expected["list"].insert(expected["list"].begin() + place, i);
                break;
            }
            case 1: {
                const std::size_t at = below(size + 1);
                step = Remove{"/list/" + std::to_string(at)};
                if (at < size) expected["list"].erase(at);
                break;
            }
            case 2: {
                const char* keys[] = {"a~1b", "c~0d", "e"};
                const char* plain[] = {"a/b", "c~d", "e"};
                const std::size_t key = below(3);
                step = SetValue{std::string("/object/") + keys[key], value};
                expected["object"][plain[key]] = i;
                break;
            }
            default: {
                const char* keys[] = {"a~1b", "c~0d", "e"};
                const char* plain[] = {"a/b", "c~d", "e"};
                const std::size_t key = below(3);
                step = Remove{std::string("/object/") + keys[key]};
                expected["object"].erase(plain[key]);
                break;
            }
        }
        text = after(text, step);
        CAPTURE(i, text);
        REQUIRE(json::parse(text) == expected);
    }
}
