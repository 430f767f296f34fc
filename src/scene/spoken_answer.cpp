#include "scene/key_unit.h"
#include "sunfleck/scene/new_scene.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <vector>

namespace sunfleck::scene {
namespace {

/// The text with capitals small, and what parts words (and degree signs) as one blank.
std::string plain_words_of(std::string_view text) {
    std::string plain;
    for (const char c : text) {
        const bool is_capital = c >= 'A' && c <= 'Z';
        const bool is_word = is_capital || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ||
                             c == '.' || c == ',' || c == '-' || c == '+';
        if (is_word) {
            plain += is_capital ? static_cast<char>(c - 'A' + 'a') : c;
        } else if (!plain.empty() && plain.back() != ' ') {
            plain += ' ';  // blanks, and the bytes of °, ′ and ″
        }
    }
    while (!plain.empty() && plain.back() == ' ') plain.pop_back();
    return plain;
}

std::optional<double> plain_number(std::string_view text) {
    std::string figure(text);
    std::replace(figure.begin(), figure.end(), ',', '.');
    if (figure.starts_with('+')) figure.erase(0, 1);
    double value = 0.0;
    const auto [end, error] = std::from_chars(figure.data(), figure.data() + figure.size(), value);
    const bool is_whole = error == std::errc{} && end == figure.data() + figure.size();
    return is_whole && std::isfinite(value) ? std::optional(value) : std::nullopt;
}

/// Degrees, minutes and seconds, parted by blanks.
std::optional<double> sexagesimal(std::string_view text) {
    double degrees = 0.0;
    double part = 1.0;
    bool is_negative = false;
    int count = 0;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        const auto value = plain_number(text.substr(0, end));
        if (!value || ++count > 3) return std::nullopt;
        if (count == 1) is_negative = text.front() == '-';
        if (count > 1 && (*value < 0.0 || *value >= 60.0)) return std::nullopt;
        degrees += std::abs(*value) / part;
        part *= 60.0;
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    if (count == 0) return std::nullopt;
    return is_negative ? -degrees : degrees;
}

/// The compass point of its letters: "nne" as 22.5.
std::optional<double> compass_point_deg(std::string_view letters) {
    constexpr std::array<std::string_view, 16> points{"n",  "nne", "ne", "ene", "e",  "ese",
                                                      "se", "sse", "s",  "ssw", "sw", "wsw",
                                                      "w",  "wnw", "nw", "nnw"};
    const auto found = std::find(points.begin(), points.end(), letters);
    if (found == points.end()) return std::nullopt;
    return 22.5 * static_cast<double>(found - points.begin());
}

}  // namespace

std::optional<double> spoken_length_m(std::string_view text) {
    constexpr double metres_per_foot = 0.3048;  // international foot, exact
    std::string plain = plain_words_of(text);
    for (const auto& [unit, size] : {std::pair("ft", metres_per_foot),
                                     {"feet", metres_per_foot},
                                     {"in", metres_per_foot / 12.0},
                                     {"inches", metres_per_foot / 12.0}}) {
        const std::string_view name(unit);
        if (!plain.ends_with(name)) continue;
        std::string_view figure(plain);
        figure.remove_suffix(name.size());
        while (figure.ends_with(' ')) figure.remove_suffix(1);
        const auto value = plain_number(figure);
        return value ? std::optional(*value * size) : std::nullopt;
    }
    const auto value = measured_in(plain, unit_of_key("length_m"));
    return value && std::isfinite(*value) ? value : std::nullopt;
}

std::optional<double> spoken_coordinate_deg(std::string_view text) {
    std::string plain = plain_words_of(text);
    double sign = 1.0;
    const std::size_t letter = plain.find_first_of("nesw");
    if (letter != std::string::npos) {
        if (letter != 0 && letter + 1 != plain.size()) return std::nullopt;
        sign = plain[letter] == 's' || plain[letter] == 'w' ? -1.0 : 1.0;
        plain.erase(letter, 1);
        if (plain.find('-') != std::string::npos) return std::nullopt;  // "-0.3 W" says it twice
    }
    while (plain.starts_with(' ')) plain.erase(0, 1);
    while (plain.ends_with(' ')) plain.pop_back();
    const auto degrees = sexagesimal(plain);
    if (!degrees || std::abs(*degrees) > 180.0) return std::nullopt;
    return sign * *degrees;
}

std::optional<double> spoken_bearing_deg(std::string_view text) {
    const std::string plain = plain_words_of(text);
    if (const auto degrees = plain_number(plain)) {
        if (*degrees < 0.0 || *degrees > 360.0) return std::nullopt;
        return *degrees;
    }
    std::string letters;
    std::string word;
    for (const char c : plain + ' ') {
        if (c != ' ' && c != '-') {
            word += c;
            continue;
        }
        for (const auto& [name, letter] :
             {std::pair("north", 'n'), {"east", 'e'}, {"south", 's'}, {"west", 'w'}}) {
            // "northeast" is two words in one.
            if (!word.starts_with(name)) continue;
            letters += letter;
            word.erase(0, std::string_view(name).size());
        }
        letters += word;
        word.clear();
    }
    return compass_point_deg(letters);
}

}  // namespace sunfleck::scene
