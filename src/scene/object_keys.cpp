#include "scene/object_keys.h"

#include <algorithm>
#include <array>
#include <charconv>

namespace sunfleck::scene {

void Reading::complain(const Value& value, std::string code, std::string message,
                       std::string mend) const {
    const TextPlace at = tree->place(value->begin);
    problems->push_back({.code = std::move(code),
                         .file = tree->file(),
                         .line = at.line,
                         .column = at.column,
                         .pointer = value.pointer,
                         .message = std::move(message),
                         .mend = std::move(mend)});
}

Angle true_bearing(const Value& value, BearingKind kind, const Reading& reading) {
    double degrees = value->number;
    if (kind == BearingKind::plan) degrees += reading.plan_up_bearing.in_degrees();
    if (kind == BearingKind::magnetic) {
        if (reading.magnetic_declination) {
            degrees += reading.magnetic_declination->in_degrees();
        } else {
            reading.complain(value, "declination_missing",
                             "A bearing by the compass stands here, and the site has no "
                             "magnetic declination.",
                             "Add \"magnetic_declination_deg\" to the site: east is positive.");
        }
    }
    degrees = std::fmod(degrees, 360.0);
    return Angle::degrees(degrees < 0.0 ? degrees + 360.0 : degrees);
}

std::string number_in_key_unit(double inside, double divisor) {
    std::array<char, 40> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), inside * divisor,
                                   std::chars_format::general, 12);
    double rounded = 0.0;
    std::from_chars(buffer.data(), end.ptr, rounded);
    return json_number(rounded);
}

double divisor_of_key(std::string_view key) {
    const Unit* unit = unit_of_key(key);
    if (unit == nullptr) return 1.0;
    if (unit->suffix == "cm" || unit->suffix == "percent") return 100.0;
    if (unit->suffix == "mm") return 1000.0;
    return 1.0;
}

bool is_number_within(std::string_view text, double least, double most) {
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc{} && end == text.data() + text.size() && value >= least &&
           value <= most;
}

void check_letters(const Value& object, const std::string& id, const Reading& reading) {
    const bool is_good = std::ranges::all_of(characters(id), [](char32_t character) {
        return character == U'_' || is_letter_or_digit(character);
    });
    const JsonNode* node = object->find("id");
    if (is_good || node == nullptr) return;
    reading.complain({node, pointer_to(object.pointer, "id")}, "id_letters",
                     "The id \"" + id + "\" holds something other than letters and digits.",
                     "An id takes letters of any script, digits and _; the name takes anything.");
}

}  // namespace sunfleck::scene
