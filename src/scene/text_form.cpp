#include "scene/text_form.h"

#include "sunfleck/base/unicode_text.h"

#include <algorithm>

namespace sunfleck::scene {

namespace {

bool is_digit(char32_t c) {
    return c >= U'0' && c <= U'9';
}

// As a pattern can say it: of ASCII only letters, digits and '_'; beyond ASCII anything but
// controls. Which of those are letters the reader knows from Unicode's tables.
bool is_id_character(char32_t c) {
    return is_digit(c) || (c >= U'A' && c <= U'Z') || (c >= U'a' && c <= U'z') || c == U'_' ||
           c > 0x9f;
}

bool is_id(std::string_view text) {
    return !text.empty() && std::ranges::all_of(characters(text), is_id_character);
}

bool is_spot(std::string_view text) {
    const auto dash = text.find('-');
    if (dash == std::string_view::npos) return is_id(text);
    const std::string_view number = text.substr(dash + 1);
    return is_id(text.substr(0, dash)) && !number.empty() && number.size() <= 4 &&
           number.front() != '0' &&
           std::ranges::all_of(number, [](char c) { return c >= '0' && c <= '9'; });
}

bool is_zone(std::string_view text) {
    const auto is_letter = [](char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); };
    return !text.empty() && is_letter(text.front()) && std::ranges::all_of(text, [&](char c) {
        return is_letter(c) || (c >= '0' && c <= '9') || c == '_' || c == '+' || c == '-' ||
               c == '/';
    });
}

/// Whether `text` is `shape` with each 'd' a digit.
bool has_digits_as(std::string_view text, std::string_view shape) {
    return std::ranges::equal(text, shape, [](char c, char wanted) {
        return wanted == 'd' ? c >= '0' && c <= '9' : c == wanted;
    });
}

int number_at(std::string_view text, std::size_t at) {
    return 10 * (text[at] - '0') + (text[at + 1] - '0');
}

bool is_month_day(std::string_view text) {
    if (!has_digits_as(text, "dd-dd")) return false;
    const int month = number_at(text, 0);
    const int day = number_at(text, 3);
    const bool is_short = month == 4 || month == 6 || month == 9 || month == 11;
    const int last = month == 2 ? 29 : is_short ? 30 : 31;
    return month >= 1 && month <= 12 && day >= 1 && day <= last;
}

bool is_date(std::string_view text) {
    return has_digits_as(text, "dddd-dd-dd") && is_month_day(text.substr(5));
}

bool is_clock(std::string_view text) {
    return has_digits_as(text, "dd:dd") && number_at(text, 0) < 24 && number_at(text, 3) < 60;
}

bool has_form(std::string_view text, TextForm form) {
    switch (form) {
        case TextForm::free:
        case TextForm::file:
            return std::ranges::none_of(characters(text), is_control);
        case TextForm::note:
            return true;
        case TextForm::id:
            return is_id(text);
        case TextForm::spot:
            return is_spot(text);
        case TextForm::zone:
            return is_zone(text);
        case TextForm::month_day:
            return is_month_day(text);
        case TextForm::date:
            return is_date(text);
        case TextForm::clock:
            return is_clock(text);
    }
    return false;
}

}  // namespace

TextLimits limits_of(TextForm form) {
    switch (form) {
        case TextForm::free:
            return {1, 1000};
        case TextForm::note:
            return {0, 10000};
        case TextForm::id:
            return {1, 40};
        case TextForm::spot:
            return {1, 45};
        case TextForm::zone:
            return {1, 60};
        case TextForm::month_day:
        case TextForm::clock:
            return {5, 5};
        case TextForm::date:
            return {10, 10};
        case TextForm::file:
            return {1, 255};
    }
    return {};
}

std::string_view pattern_of(TextForm form) {
    switch (form) {
        case TextForm::free:
        case TextForm::file:
            return R"(^[^\x00-\x1f\x7f-\x9f]+$)";
        case TextForm::note:
            return {};
        case TextForm::id:
            return R"(^[^\x00-/:-@\[-^`{-\x9f]+$)";
        case TextForm::spot:
            return R"(^[^\x00-/:-@\[-^`{-\x9f]+(-[1-9][0-9]{0,3})?$)";
        case TextForm::zone:
            return "^[A-Za-z][A-Za-z0-9_+/-]*$";
        case TextForm::month_day:
            return "^((0[13578]|1[02])-(0[1-9]|[12][0-9]|3[01])|(0[469]|11)-(0[1-9]|[12][0-9]|30)|"
                   "02-(0[1-9]|[12][0-9]))$";
        case TextForm::date:
            return "^[0-9]{4}-((0[13578]|1[02])-(0[1-9]|[12][0-9]|3[01])|"
                   "(0[469]|11)-(0[1-9]|[12][0-9]|30)|02-(0[1-9]|[12][0-9]))$";
        case TextForm::clock:
            return "^([01][0-9]|2[0-3]):[0-5][0-9]$";
    }
    return {};
}

bool fits(std::string_view text, TextForm form) {
    const TextLimits limits = limits_of(form);
    const std::size_t count = character_count(text);
    return count >= limits.shortest && count <= limits.longest && has_form(text, form);
}

std::string_view words_for(TextForm form) {
    switch (form) {
        case TextForm::free:
            return "text of 1 to 1000 characters on one line";
        case TextForm::note:
            return "text of at most 10000 characters";
        case TextForm::id:
            return "1 to 40 letters, digits or _";
        case TextForm::spot:
            return "a bench's or stand's id, or a spot such as \"A-3\"";
        case TextForm::zone:
            return "a time zone such as \"Europe/London\"";
        case TextForm::month_day:
            return "a day of the year as month and day, such as \"06-21\"";
        case TextForm::date:
            return "a date such as \"2026-06-21\"";
        case TextForm::clock:
            return "a time such as \"07:30\"";
        case TextForm::file:
            return "the name of a file beside the scene";
    }
    return {};
}

}  // namespace sunfleck::scene
