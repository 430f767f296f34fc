#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sunfleck {

/// The byte where the text stops being UTF-8; nothing when all of it is. Overlong forms and
/// surrogates are refused as RFC 3629 asks.
[[nodiscard]] std::optional<std::size_t> first_byte_not_utf8(std::string_view text);

/// The text in Unicode normalisation form C, in which "é" is the same whether it was typed as one
/// character or two. Text that is not UTF-8 is given back unchanged.
[[nodiscard]] std::string nfc(std::string_view text);

/// The text's characters (code points). A byte that is not UTF-8 counts as one character.
[[nodiscard]] std::vector<char32_t> characters(std::string_view text);
[[nodiscard]] std::size_t character_count(std::string_view text);

/// A letter, a mark that belongs to a letter, or a digit, of any script.
[[nodiscard]] bool is_letter_or_digit(char32_t character);
/// Tab, newline, escape and the like, which have no place in a name.
[[nodiscard]] bool is_control(char32_t character);

}  // namespace sunfleck
