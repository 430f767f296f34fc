#include "scene/text_form.h"

#include <catch2/catch.hpp>

#include <array>
#include <random>
#include <regex>
#include <string>

using namespace sunfleck::scene;

namespace {

/// Characters that the patterns tell apart, and neighbours of theirs.
const std::string alphabet = "0123456789-:/_+.@AZ[az{`^ \n\x1f\x7f";

/// ASCII alone, in the characters that std::wregex has: with narrow ones \x9f would be negative.
std::wstring wide(std::string_view text) {
    return {text.begin(), text.end()};
}

}  // namespace

TEST_CASE("a text fits its form exactly when it matches the published pattern", "[scene][cross]") {
    // std::regex is ECMAScript, as JSON Schema's patterns are; on ASCII the two are the same.
    constexpr std::array forms{TextForm::free,  TextForm::id,   TextForm::spot,
                               TextForm::zone,  TextForm::date, TextForm::month_day,
                               TextForm::clock, TextForm::file};
    std::mt19937_64 bits(3);
    for (const TextForm form : forms) {
        const std::wregex pattern(wide(pattern_of(form)));
        for (int i = 0; i < 3000; ++i) {
            std::string text;
            for (std::size_t k = 0, count = bits() % 12U; k < count; ++k) {
                text += alphabet[bits() % alphabet.size()];
            }
            const TextLimits limits = limits_of(form);
            const bool is_long_enough =
                text.size() >= limits.shortest && text.size() <= limits.longest;
            CAPTURE(pattern_of(form), text);
            CHECK(fits(text, form) == (is_long_enough && std::regex_match(wide(text), pattern)));
        }
    }
}

TEST_CASE("every day of the year and every minute fits, and no other", "[scene][property]") {
    const std::array<int, 13> days{0, 31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    const auto two = [](int number) {
        return std::string(1, static_cast<char>('0' + number / 10)) +
               static_cast<char>('0' + number % 10);
    };
    const std::regex month_day{std::string(pattern_of(TextForm::month_day))};
    const std::regex clock{std::string(pattern_of(TextForm::clock))};
    for (int first = 0; first < 100; ++first) {
        for (int second = 0; second < 100; ++second) {
            const std::string day = two(first) + "-" + two(second);
            const bool is_day = first >= 1 && first <= 12 && second >= 1 &&
                                second <= days.at(static_cast<std::size_t>(first));
            CHECK(fits(day, TextForm::month_day) == is_day);
            CHECK(std::regex_match(day, month_day) == is_day);
            const std::string time = two(first) + ":" + two(second);
            CHECK(fits(time, TextForm::clock) == (first < 24 && second < 60));
            CHECK(std::regex_match(time, clock) == (first < 24 && second < 60));
        }
    }
}

TEST_CASE("lengths are counted in characters", "[scene][property]") {
    std::string id;
    for (int i = 0; i < 40; ++i) id += "\xE6\x9D\xBE";
    CHECK(fits(id, TextForm::id));
    CHECK_FALSE(fits(id + "a", TextForm::id));
    CHECK_FALSE(fits("", TextForm::id));
    CHECK(fits("", TextForm::note));
}
