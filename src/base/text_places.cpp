#include "sunfleck/base/text_places.h"

#include <algorithm>

namespace sunfleck {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::size_t block_bytes = 4096;

/// Characters that begin in the text: all bytes but those that go on with one.
std::size_t character_begins(std::string_view text) {
    return static_cast<std::size_t>(std::ranges::count_if(
        text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

}  // namespace

TextPlaces::TextPlaces(std::string_view text) {
    line_begins_.push_back(text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0);
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\n') line_begins_.push_back(i + 1);
    }
    std::size_t count = 0;
    for (std::size_t begin = 0; begin <= text.size(); begin += block_bytes) {
        characters_before_block_.push_back(count);
        count += character_begins(text.substr(begin, block_bytes));
    }
}

TextPlace TextPlaces::of(std::string_view text, std::size_t byte) const {
    const std::size_t at = std::min(byte, text.size());
    auto line = std::ranges::upper_bound(line_begins_, at);
    if (line != line_begins_.begin()) --line;
    const std::size_t before_line = characters_before(text, *line);
    const std::size_t before = characters_before(text, std::max(at, *line));
    return {static_cast<int>(line - line_begins_.begin()) + 1,
            static_cast<int>(before - before_line) + 1};
}

std::size_t TextPlaces::characters_before(std::string_view text, std::size_t byte) const {
    const std::size_t block = byte / block_bytes;
    const std::size_t begin = block * block_bytes;
    return characters_before_block_[block] + character_begins(text.substr(begin, byte - begin));
}

}  // namespace sunfleck
