#pragma once

#include "sunfleck/base/json_tree.h"

#include <cstddef>
#include <string>
#include <string_view>

namespace sunfleck {

[[nodiscard]] inline bool is_json_space(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

[[nodiscard]] inline bool is_json_number_part(char c) {
    return (c >= '0' && c <= '9') || c == '-' || c == '+' || c == '.' || c == 'e' || c == 'E';
}

[[nodiscard]] inline bool is_json_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

[[nodiscard]] inline bool is_json_word_part(char c) {
    return is_json_letter(c) || (c >= '0' && c <= '9') || c == '_';
}

/// What is wrong with a JSON text, at a byte of it.
struct JsonComplaint {
    std::size_t byte = 0;
    std::string code;
    std::string pointer;
    std::string message;
    std::string mend;
};

/// Where the parser gave up.
struct JsonStop {
    std::size_t cursor = 0;  ///< behind the last token that made a value, a key or a bracket
    const JsonNode* innermost = nullptr;  ///< the array or object still open; null: none
    std::string pointer;                  ///< of the value read last
    bool has_root = false;                ///< the text's value has begun
    bool is_number_too_large = false;     ///< the parser said so of the number it stopped at
};

/// Says what is wrong where the parser stopped, in words that help to mend it.
[[nodiscard]] JsonComplaint complaint_about_syntax(std::string_view text, const JsonStop& stop);

}  // namespace sunfleck
