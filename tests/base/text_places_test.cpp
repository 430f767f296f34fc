#include "sunfleck/base/text_places.h"

#include "sunfleck/base/unicode_text.h"

#include <catch2/catch.hpp>

#include <random>
#include <string>

using namespace sunfleck;

namespace {

/// Counted from the text's begin, character by character.
TextPlace counted(const std::string& text, std::size_t byte) {
    TextPlace place;
    std::size_t line_begin = 0;
    for (std::size_t i = 0; i < byte; ++i) {
        if (text[i] != '\n') continue;
        ++place.line;
        line_begin = i + 1;
    }
    const std::string line = text.substr(line_begin, byte - line_begin);
    place.column = static_cast<int>(character_count(line)) + 1;
    return place;
}

}  // namespace

TEST_CASE("places are those found by counting, in long lines and short", "[base][cross]") {
    std::mt19937_64 bits(5);
    for (const unsigned line_length : {3U, 80U, 20000U}) {
        std::string text;
        while (text.size() < 30000) {
            const char* const parts[] = {"a", "\xC3\xA9", "\xE6\x9D\xBE", "\xF0\x9F\x8C\xB3"};
            text += bits() % line_length == 0 ? "\r\n" : parts[bits() % 4];
        }
        const TextPlaces places(text);
        for (int i = 0; i < 200; ++i) {
            std::size_t byte = bits() % (text.size() + 1);
            while (byte < text.size() &&
                   (static_cast<unsigned char>(text[byte]) & 0xC0U) == 0x80U) {
                ++byte;
            }
            CAPTURE(line_length, byte);
            CHECK(places.of(text, byte) == counted(text, byte));
        }
    }
}

TEST_CASE("an empty text and a text of a byte order mark begin at 1, 1", "[base][property]") {
    CHECK(TextPlaces("").of("", 0) == TextPlace{1, 1});
    CHECK(TextPlaces("").of("", 7) == TextPlace{1, 1});
    CHECK(TextPlaces("\xEF\xBB\xBF").of("\xEF\xBB\xBF", 0) == TextPlace{1, 1});
    CHECK(TextPlaces("\xEF\xBB\xBF{").of("\xEF\xBB\xBF{", 3) == TextPlace{1, 1});
}
