#include "sunfleck/base/unicode_text.h"

#include <utf8proc.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <memory>

namespace sunfleck {

namespace {

struct Character {
    char32_t code = 0;
    std::size_t bytes = 1;
    bool is_valid = false;
};

Character character_at(std::string_view text, std::size_t at) {
    // utf8proc reads at most four bytes of a character; the cap keeps its signed length exact.
    const std::string_view ahead = text.substr(at, 4);
    utf8proc_int32_t code = 0;
    const auto bytes = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(ahead.data()),
                                        static_cast<utf8proc_ssize_t>(ahead.size()), &code);
    if (bytes <= 0) return {static_cast<unsigned char>(text[at]), 1, false};
    return {static_cast<char32_t>(code), static_cast<std::size_t>(bytes), true};
}

}  // namespace

std::optional<std::size_t> first_byte_not_utf8(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const Character character = character_at(text, at);
        if (!character.is_valid) return at;
        at += character.bytes;
    }
    return std::nullopt;
}

std::string nfc(std::string_view text) {
    utf8proc_uint8_t* composed = nullptr;
    const auto size =
        utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                     static_cast<utf8proc_ssize_t>(text.size()), &composed,
                     static_cast<utf8proc_option_t>(UTF8PROC_STABLE | UTF8PROC_COMPOSE));
    const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> owner(composed, &std::free);
    if (size < 0) return std::string(text);
    return {reinterpret_cast<const char*>(composed), static_cast<std::size_t>(size)};
}

std::vector<char32_t> characters(std::string_view text) {
    std::vector<char32_t> all;
    for (std::size_t at = 0; at < text.size();) {
        const Character character = character_at(text, at);
        all.push_back(character.code);
        at += character.bytes;
    }
    return all;
}

std::size_t character_count(std::string_view text) {
    std::size_t count = 0;
    for (std::size_t at = 0; at < text.size(); ++count) at += character_at(text, at).bytes;
    return count;
}

bool is_letter_or_digit(char32_t character) {
    constexpr std::array<utf8proc_category_t, 8> categories{
        UTF8PROC_CATEGORY_LU, UTF8PROC_CATEGORY_LL, UTF8PROC_CATEGORY_LT, UTF8PROC_CATEGORY_LM,
        UTF8PROC_CATEGORY_LO, UTF8PROC_CATEGORY_MN, UTF8PROC_CATEGORY_MC, UTF8PROC_CATEGORY_ND};
    return std::ranges::find(categories,
                             utf8proc_category(static_cast<utf8proc_int32_t>(character))) !=
           categories.end();
}

bool is_control(char32_t character) {
    return utf8proc_category(static_cast<utf8proc_int32_t>(character)) == UTF8PROC_CATEGORY_CC;
}

}  // namespace sunfleck
