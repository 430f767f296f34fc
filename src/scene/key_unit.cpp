#include "scene/key_unit.h"

#include <array>
#include <charconv>
#include <cmath>
#include <numbers>

namespace sunfleck::scene {

namespace {

constexpr std::array<Unit, 24> units{{
    {"m", "m", "metres", "length", 1.0},
    {"cm", "cm", "centimetres", "length", 0.01},
    {"mm", "mm", "millimetres", "length", 0.001},
    {"km", "km", "kilometres", "length", 1000.0},
    {"ft", "ft", "feet", "length", 0.3048},
    {"in", "in", "inches", "length", 0.0254},
    {"l", "l", "litres", "volume", 1.0},
    {"ml", "ml", "millilitres", "volume", 0.001},
    {"kg", "kg", "kilograms", "mass", 1.0},
    {"g", "g", "grams", "mass", 0.001},
    {"lb", "lb", "pounds", "mass", 0.45359237},
    {"h", "h", "hours", "time", 1.0},
    {"min", "min", "minutes", "time", 1.0 / 60.0},
    {"m_s", "m/s", "metres per second", "speed", 1.0},
    {"km_h", "km/h", "kilometres per hour", "speed", 1.0 / 3.6},
    {"mj_m2", "MJ/m²", "megajoules per square metre", "energy", 1.0},
    {"kwh_m2", "kWh/m²", "kilowatt hours per square metre", "energy", 3.6},
    {"deg", "°", "degrees", "angle", 1.0},
    {"rad", "rad", "radians", "angle", 180.0 / std::numbers::pi},
    {"fraction", "", "a fraction from 0 to 1", "share", 1.0},
    {"percent", "%", "percent", "share", 0.01},
    {"", "%", "percent", "share", 0.01},
    {"c", "°C", "degrees Celsius", "temperature", 1.0},
    {"days", "days", "days", "days", 1.0},
}};

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}

const Unit* unit_of_symbol(std::string_view symbol) {
    for (const Unit& unit : units) {
        if (symbol == unit.symbol || symbol == unit.suffix || symbol == unit.name) return &unit;
    }
    return nullptr;
}

bool ends_in(std::string_view key, const Unit& unit) {
    return !unit.suffix.empty() && key.size() > unit.suffix.size() + 1 &&
           key.ends_with(unit.suffix) && key[key.size() - unit.suffix.size() - 1] == '_';
}

}  // namespace

const Unit* unit_of_key(std::string_view key) {
    const Unit* longest = nullptr;
    for (const Unit& unit : units) {
        if (!ends_in(key, unit)) continue;
        if (longest == nullptr || unit.suffix.size() > longest->suffix.size()) longest = &unit;
    }
    return longest;
}

std::string_view stem_of_key(std::string_view key) {
    const Unit* unit = unit_of_key(key);
    return unit == nullptr ? key : key.substr(0, key.size() - unit->suffix.size() - 1);
}

std::optional<double> converted(double value, const Unit& from, const Unit& to) {
    if (from.measure != to.measure) return std::nullopt;
    return value * from.size / to.size;
}

std::optional<double> measured_in(std::string_view text, const Unit* to) {
    std::string plain(trimmed(text));
    if (plain.size() > 60) return std::nullopt;
    for (char& character : plain) character = character == ',' ? '.' : character;
    double value = 0.0;
    const auto [end, error] = std::from_chars(plain.data(), plain.data() + plain.size(), value);
    if (error != std::errc{} || !std::isfinite(value)) return std::nullopt;
    const std::string_view symbol = trimmed(std::string_view(end, plain.data() + plain.size()));
    if (symbol.empty()) return value;
    const Unit* from = unit_of_symbol(symbol);
    if (from == nullptr || to == nullptr) return std::nullopt;
    return converted(value, *from, *to);
}

std::string short_number(double value) {
    if (std::fpclassify(value) == FP_ZERO) return "0";
    std::array<char, 32> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                   std::chars_format::general, 6);
    return {buffer.data(), end.ptr};
}

std::string with_unit(std::string_view number, const Unit* unit) {
    std::string text(number);
    if (unit == nullptr || unit->symbol.empty()) return text;
    if (unit->symbol != "°") text += ' ';
    return text += unit->symbol;
}

}  // namespace sunfleck::scene
