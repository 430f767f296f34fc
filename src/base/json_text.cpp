#include "sunfleck/base/json_text.h"

#include "sunfleck/base/require.h"

#include <array>
#include <charconv>
#include <cmath>

namespace sunfleck {

namespace {

void append_escaped(std::string& quoted, char character) {
    constexpr std::string_view digits = "0123456789abcdef";
    switch (character) {
        case '"':
            quoted += "\\\"";
            return;
        case '\\':
            quoted += "\\\\";
            return;
        case '\n':
            quoted += "\\n";
            return;
        case '\r':
            quoted += "\\r";
            return;
        case '\t':
            quoted += "\\t";
            return;
        default:
            break;
    }
    const auto byte = static_cast<unsigned char>(character);
    if (byte < 0x20) {
        quoted += "\\u00";
        quoted += digits[byte / 16U];
        quoted += digits[byte % 16U];
    } else {
        quoted += character;
    }
}

}  // namespace

std::string json_quoted(std::string_view text) {
    std::string quoted = "\"";
    for (const char character : text) append_escaped(quoted, character);
    return quoted + '"';
}

std::string json_number(double value) {
    SUNFLECK_REQUIRE(std::isfinite(value), "JSON has no text for a number that is not finite");
    if (std::fpclassify(value) == FP_ZERO) return "0";
    std::array<char, 32> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
    return {buffer.data(), end.ptr};
}

}  // namespace sunfleck
