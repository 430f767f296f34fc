#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace sunfleck {

/// A civil (proleptic Gregorian) calendar date.
using Date = std::chrono::year_month_day;
/// A day of every year, such as a season's first day.
using MonthDay = std::chrono::month_day;

/// The date of "2026-06-21"; nothing when the text is not a real date.
[[nodiscard]] std::optional<Date> parse_date(std::string_view text);
/// The day of "06-21"; 02-29 is allowed; nothing when the text is not a real day.
[[nodiscard]] std::optional<MonthDay> parse_month_day(std::string_view text);
/// ISO 8601, "2026-06-21".
[[nodiscard]] std::string iso_date(Date date);
/// "06-21".
[[nodiscard]] std::string iso_month_day(MonthDay day);

[[nodiscard]] Date make_date(int year, unsigned month, unsigned day);
[[nodiscard]] int year_of(Date date);
/// 1 for 1 January.
[[nodiscard]] int day_of_year(Date date);
/// `date` moved by `days` (may be negative).
[[nodiscard]] Date add_days(Date date, int days);
/// Days from `from` to `to`; negative when `to` is earlier.
[[nodiscard]] int days_between(Date from, Date to);
/// The day in that year; 02-29 counts as 02-28 in common years.
[[nodiscard]] Date in_year(MonthDay day, int year);
/// Days since 1970-01-01.
[[nodiscard]] int days_since_1970(Date date);

}  // namespace sunfleck
