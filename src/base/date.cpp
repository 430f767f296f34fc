#include "sunfleck/base/date.h"

#include <array>
#include <charconv>
#include <cstdio>

namespace sunfleck {
namespace {

using std::chrono::days;
using std::chrono::sys_days;

/// The number that is the whole of `text`, digits only.
std::optional<unsigned> parse_digits(std::string_view text) {
    for (const char c : text) {
        if (c < '0' || c > '9') return std::nullopt;
    }
    unsigned value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return value;
}

}  // namespace

std::optional<Date> parse_date(std::string_view text) {
    if (text.size() != 10 || text[4] != '-') return std::nullopt;
    const auto year = parse_digits(text.substr(0, 4));
    const auto day = parse_month_day(text.substr(5));
    if (!year || !day) return std::nullopt;
    const Date date = std::chrono::year(static_cast<int>(*year)) / *day;
    return date.ok() ? std::optional(date) : std::nullopt;
}

std::optional<MonthDay> parse_month_day(std::string_view text) {
    if (text.size() != 5 || text[2] != '-') return std::nullopt;
    const auto month = parse_digits(text.substr(0, 2));
    const auto day = parse_digits(text.substr(3));
    if (!month || !day) return std::nullopt;
    const MonthDay result = std::chrono::month(*month) / std::chrono::day(*day);
    return result.ok() ? std::optional(result) : std::nullopt;
}

std::string iso_date(Date date) {
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%04d-%s", year_of(date),
                  iso_month_day(date.month() / date.day()).c_str());
    return text.data();
}

std::string iso_month_day(MonthDay day) {
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%02u-%02u", static_cast<unsigned>(day.month()),
                  static_cast<unsigned>(day.day()));
    return text.data();
}

Date make_date(int year, unsigned month, unsigned day) {
    return std::chrono::year(year) / std::chrono::month(month) / std::chrono::day(day);
}

int year_of(Date date) {
    return static_cast<int>(date.year());
}

int day_of_year(Date date) {
    return days_between(make_date(year_of(date), 1, 1), date) + 1;
}

Date add_days(Date date, int count) {
    return sys_days(date) + days(count);
}

int days_between(Date from, Date to) {
    return static_cast<int>((sys_days(to) - sys_days(from)).count());
}

Date in_year(MonthDay day, int year) {
    const Date date = std::chrono::year(year) / day;
    return date.ok() ? date : make_date(year, 2, 28);
}

int days_since_1970(Date date) {
    return static_cast<int>(sys_days(date).time_since_epoch().count());
}

}  // namespace sunfleck
