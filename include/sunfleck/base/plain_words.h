#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/units.h"

#include <string>
#include <string_view>

/// Figures as a neighbour says them: the words of the screen, the tables and the pictures. Exact
/// values belong in files, not here. All take finite numbers.
namespace sunfleck {

/// Minutes to the nearest 5: "none", "35 min", "4 h", "4 h 10". A negative value gets a minus.
[[nodiscard]] std::string duration_words(double minutes);
/// A change to the nearest 5 min: "+1 h 30", "−35 min", "none".
[[nodiscard]] std::string duration_change_words(double minutes);
/// "13:40", to the nearest minute; 86400 and more begin the day again.
[[nodiscard]] std::string clock_words(double seconds_of_day);
/// The clock to the nearest 5 min, as the hot hours are told: "12:05".
[[nodiscard]] std::string rounded_clock_words(double seconds_of_day);
/// "21 June".
[[nodiscard]] std::string date_words(Date date);
/// "21 Jun".
[[nodiscard]] std::string short_date_words(Date date);
/// "21 June 2026".
[[nodiscard]] std::string date_and_year_words(Date date);
/// "21 June", "21 June to 15 August"; the year is told where the two differ in it.
[[nodiscard]] std::string date_range_words(Date from, Date to);
/// The same with the year always told: "21 June to 15 August 2026".
[[nodiscard]] std::string date_range_and_year_words(Date from, Date to);
/// "3.1 kg", from 10 up "16 kg".
[[nodiscard]] std::string weight_words(double weight_kg);
/// "80 cm" below one metre, else "2.40 m".
[[nodiscard]] std::string length_words(double length_m);
/// "40 %" of the fraction 0.4.
[[nodiscard]] std::string percent_words(double fraction);
/// "57°", whole degrees.
[[nodiscard]] std::string degrees_words(Angle angle);
/// One of the eight winds nearest a bearing: "north", "south-west".
[[nodiscard]] std::string bearing_words(Angle bearing);
/// "51.5° N 0.3° W".
[[nodiscard]] std::string place_words(Latitude latitude, Longitude longitude);
/// A season's name as it is said: "early summer" of "early_summer".
[[nodiscard]] std::string season_words(std::string_view name);
/// "1 pot", "13 pots"; the plural is the singular with an s.
[[nodiscard]] std::string count_words(std::size_t count, std::string_view singular);
/// A number with that many decimals, 0 to 9, and a true minus sign: "−0.35". Never "−0".
[[nodiscard]] std::string fixed_words(double value, int decimals);

}  // namespace sunfleck
