#include "sunfleck/base/unicode_text.h"

#include <catch2/catch.hpp>

using namespace sunfleck;

TEST_CASE("composed and decomposed text are one after NFC", "[base][published]") {
    // Unicode Standard Annex 15, Normalization Forms, Figures 3 to 5: singletons, canonical
    // composites, and several marks put in order.
    CHECK(nfc("\xE2\x84\xAB") == "\xC3\x85");                      // angstrom sign
    CHECK(nfc("\xE2\x84\xA6") == "\xCE\xA9");                      // ohm sign
    CHECK(nfc("A\xCC\x8A") == "\xC3\x85");                         // A, ring above
    CHECK(nfc("\xE1\xB8\x8B\xCC\xA3") == "\xE1\xB8\x8D\xCC\x87");  // d with dots above and below
    CHECK(nfc("\xEF\xAC\x81") == "\xEF\xAC\x81");                  // the fi ligature stays
    CHECK(nfc("A-3") == "A-3");
    CHECK(nfc("\xFF") == "\xFF");
}

TEST_CASE("text that is not UTF-8 is found at its first wrong byte", "[base][published]") {
    CHECK_FALSE(first_byte_not_utf8(""));
    CHECK_FALSE(first_byte_not_utf8("\xC3\xA9\xE2\x82\xAC\xF0\x9F\x8C\xB3"));
    // RFC 3629 (2003), sections 3 and 10: overlong forms, surrogates, beyond U+10FFFF, cut short.
    CHECK(first_byte_not_utf8("ab\xC0\x80") == 2u);
    CHECK(first_byte_not_utf8("\xE0\x80\xAF") == 0u);
    CHECK(first_byte_not_utf8("a\xED\xA0\x80") == 1u);
    CHECK(first_byte_not_utf8("\xF4\x90\x80\x80") == 0u);
    CHECK(first_byte_not_utf8("\xC3\xA9\xE2\x82") == 2u);
    CHECK(first_byte_not_utf8("\x80") == 0u);
}

TEST_CASE("characters are counted, not bytes", "[base][property]") {
    CHECK(character_count("\xC3\xA9t\xC3\xA9") == 3);
    CHECK(character_count("\xFF\xFE") == 2);
    CHECK(characters("\xF0\x9F\x8C\xB3") == std::vector<char32_t>{0x1F333});
}

TEST_CASE("letters and digits of any script count, marks of ink do not", "[base][property]") {
    for (const char32_t letter : {U'A', U'é', U'Ж', U'松', U'7', U'٣', U'ก', char32_t{0x0E31}}) {
        CHECK(is_letter_or_digit(letter));
    }
    for (const char32_t other : {U' ', U'-', U'/', U'_', U'€', char32_t{0x1F333}, char32_t{0}}) {
        CHECK_FALSE(is_letter_or_digit(other));
    }
    CHECK(is_control(U'\n'));
    CHECK(is_control(0x7F));
    CHECK_FALSE(is_control(U' '));
}
