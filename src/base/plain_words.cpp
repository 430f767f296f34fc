#include "sunfleck/base/plain_words.h"

#include "sunfleck/base/require.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdlib>

namespace sunfleck {

namespace {

constexpr std::string_view minus_sign = "−";
constexpr long minutes_of_day = 24L * 60L;

constexpr std::array<std::string_view, 12> month_names{
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};

constexpr std::array<std::string_view, 8> wind_names{"north", "north-east", "east", "south-east",
                                                     "south", "south-west", "west", "north-west"};

std::string two_digits(long value) {
    return (value < 10 ? "0" : "") + std::to_string(value);
}

std::string unsigned_duration(long minutes) {
    const long hours = minutes / 60;
    const long rest = minutes % 60;
    if (hours == 0) return std::to_string(rest) + " min";
    const std::string text = std::to_string(hours) + " h";
    return rest == 0 ? text : text + ' ' + two_digits(rest);
}

long to_nearest(double value, long step) {
    SUNFLECK_REQUIRE(std::isfinite(value), "a figure to be told is not a number");
    return std::lround(value / static_cast<double>(step)) * step;
}

std::string clock_of_minutes(long minutes) {
    const long wrapped = ((minutes % minutes_of_day) + minutes_of_day) % minutes_of_day;
    return two_digits(wrapped / 60) + ':' + two_digits(wrapped % 60);
}

std::string_view month_name(Date date) {
    return month_names[static_cast<unsigned>(date.month()) - 1];
}

std::string day_number(Date date) {
    return std::to_string(static_cast<unsigned>(date.day()));
}

}  // namespace

std::string duration_words(double minutes) {
    const long rounded = to_nearest(minutes, 5);
    if (rounded == 0) return "none";
    const std::string text = unsigned_duration(std::labs(rounded));
    return rounded < 0 ? std::string(minus_sign) + text : text;
}

std::string duration_change_words(double minutes) {
    const std::string text = duration_words(minutes);
    return to_nearest(minutes, 5) > 0 ? '+' + text : text;
}

std::string clock_words(double seconds_of_day) {
    return clock_of_minutes(to_nearest(seconds_of_day / 60.0, 1));
}

std::string rounded_clock_words(double seconds_of_day) {
    return clock_of_minutes(to_nearest(seconds_of_day / 60.0, 5));
}

std::string date_words(Date date) {
    return day_number(date) + ' ' + std::string(month_name(date));
}

std::string short_date_words(Date date) {
    return day_number(date) + ' ' + std::string(month_name(date).substr(0, 3));
}

std::string date_and_year_words(Date date) {
    return date_words(date) + ' ' + std::to_string(year_of(date));
}

std::string date_range_words(Date from, Date to) {
    if (from == to) return date_words(from);
    if (year_of(from) == year_of(to)) return date_words(from) + " to " + date_words(to);
    return date_and_year_words(from) + " to " + date_and_year_words(to);
}

std::string date_range_and_year_words(Date from, Date to) {
    const std::string range = date_range_words(from, to);
    return year_of(from) == year_of(to) ? range + " " + std::to_string(year_of(to)) : range;
}

std::string weight_words(double weight_kg) {
    return fixed_words(weight_kg, std::abs(weight_kg) < 9.95 ? 1 : 0) + " kg";
}

std::string length_words(double length_m) {
    const bool is_short = std::abs(length_m) < 0.995;
    return is_short ? fixed_words(100.0 * length_m, 0) + " cm" : fixed_words(length_m, 2) + " m";
}

std::string percent_words(double fraction) {
    return fixed_words(100.0 * fraction, 0) + " %";
}

std::string degrees_words(Angle angle) {
    return fixed_words(angle.in_degrees(), 0) + "°";
}

std::string bearing_words(Angle bearing) {
    const long eighths = to_nearest(bearing.in_degrees() / 45.0, 1);
    return std::string(wind_names[static_cast<std::size_t>(((eighths % 8) + 8) % 8)]);
}

std::string place_words(Latitude latitude, Longitude longitude) {
    const double north_deg = latitude.in_degrees();
    const double east_deg = longitude.in_degrees();
    return fixed_words(std::abs(north_deg), 1) + "° " + (north_deg < 0.0 ? "S " : "N ") +
           fixed_words(std::abs(east_deg), 1) + "° " + (east_deg < 0.0 ? "W" : "E");
}

std::string season_words(std::string_view name) {
    std::string words(name);
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

std::string count_words(std::size_t count, std::string_view singular) {
    return std::to_string(count) + ' ' + std::string(singular) + (count == 1 ? "" : "s");
}

std::string fixed_words(double value, int decimals) {
    SUNFLECK_REQUIRE(std::isfinite(value), "a figure to be told is not a number");
    SUNFLECK_REQUIRE(decimals >= 0 && decimals <= 9, "decimals from 0 to 9");
    std::array<char, 340> buffer{};  // the longest double in fixed notation and 9 decimals
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), std::abs(value),
                                   std::chars_format::fixed, decimals);
    const std::string digits(buffer.data(), end.ptr);
    const bool is_zero = digits.find_first_not_of("0.") == std::string::npos;
    return value < 0.0 && !is_zero ? std::string(minus_sign) + digits : digits;
}

}  // namespace sunfleck
