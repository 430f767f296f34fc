#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/sun_report.h"
#include "sunfleck/output/text_table.h"
#include "sunfleck/output/words.h"

#include <array>
#include <cmath>
#include <cstdio>

namespace sunfleck::output {
namespace {

constexpr double longest_told_shadow = 20.0;

/// "in the south-west (231°)".
std::string whence(Angle azimuth) {
    return "in the " + bearing_words(azimuth) + " (" + degrees_words(azimuth) + ")";
}

/// The shadow of a stick 1 m high on level ground.
std::string shadow_words(Angle altitude) {
    if (altitude.in_radians() <= 0.0) return "none";
    const double length_m = 1.0 / tan(altitude);
    if (length_m > longest_told_shadow) return "over 20 m";
    return fixed_words(length_m, 2) + " m";
}

std::string place_line(const SunPlace& place) {
    std::string line = place.name.empty() ? "" : place.name + ", ";
    line += place_words(place.place.latitude, place.place.longitude);
    if (std::fabs(place.place.elevation_m) >= 0.5) {
        line += ", " + fixed_words(place.place.elevation_m, 0) + " m";
    }
    return line + ". Clock of " + place.zone.name() + ".";
}

std::string air_line(const SunPlace& place) {
    return "Seen heights are through air of " + fixed_words(place.air.pressure_hpa, 0) +
           " hPa and " + fixed_words(place.air.temperature_c, 0) + " °C.";
}

std::string heading(const SunPlace& place, const std::string& first, const std::string& note) {
    std::string text = first + "\n" + wrapped_text(place_line(place)) + "\n";
    if (!note.empty()) text += wrapped_text(note) + "\n";
    return text + "\n";
}

/// "04:41", with its date when that is another than the day's: near polar day the sun may rise
/// before midnight.
std::string event_clock(UtcSeconds instant, const SunDate& date, const sun::TimeZone& zone) {
    const Date shown = zone.clock(instant).date;
    const std::string clock = clock_words_at(instant, zone);
    return shown == date.date ? clock : clock + " on " + date_words(shown);
}

/// The sun's own azimuth at an event.
std::string whence_at(UtcSeconds instant, const SunPlace& place) {
    return whence(sun::solar_position(instant, place.place).azimuth);
}

/// "04:41", or a dash when there is none.
std::string clock_or_dash(const std::optional<UtcSeconds>& instant, const sun::TimeZone& zone) {
    return instant ? clock_words_at(*instant, zone) : "–";
}

std::string event_line(const std::string& name, const std::string& value) {
    constexpr int value_column = 12;
    std::string line = name;
    line.resize(value_column, ' ');
    return line + value + "\n";
}

std::string daylight_words(const sun::SunDay& day) {
    switch (day.state) {
        case sun::DayState::polar_day:
            return "24 h";
        case sun::DayState::polar_night:
            return "none";
        case sun::DayState::normal:
        case sun::DayState::rise_only:
        case sun::DayState::set_only:
            break;
    }
    return duration_words(day.day_length_h() * 60.0);
}

/// What is missing of a day on which the sun does not both rise and set.
std::string polar_sentence(const SunDate& date) {
    const std::string day = date_words(date.date);
    switch (date.day.state) {
        case sun::DayState::normal:
            return "";
        case sun::DayState::polar_day:
            return "The sun does not set on " + day + ".\n";
        case sun::DayState::polar_night:
            return "The sun does not rise on " + day + ".\n";
        case sun::DayState::rise_only:
            return "The sun rises on " + day + " and does not set.\n";
        case sun::DayState::set_only:
            return "The sun sets on " + day + " and has not risen: it was up before.\n";
    }
    return "";
}

std::string events_text(const SunDate& date, const SunPlace& place) {
    const sun::SunDay& day = date.day;
    const sun::TimeZone& zone = place.zone;
    std::string text = polar_sentence(date);
    if (day.sunrise) {
        text += event_line("Sunrise", event_clock(*day.sunrise, date, zone) + "  " +
                                          whence_at(*day.sunrise, place));
    }
    const bool is_up = day.noon_altitude.in_degrees() > 0.0;
    text += event_line("Solar noon",
                       clock_words_at(day.solar_noon, zone) + "  " +
                           (is_up ? degrees_words(day.noon_altitude) + " high, "
                                  : degrees_words(-day.noon_altitude) + " below the horizon, ") +
                           whence_at(day.solar_noon, place));
    if (day.sunset) {
        text += event_line(
            "Sunset", event_clock(*day.sunset, date, zone) + "  " + whence_at(*day.sunset, place));
    }
    text += event_line("Daylight", daylight_words(day));
    if (day.civil_dawn && day.civil_dusk) {
        text += event_line("Twilight", event_clock(*day.civil_dawn, date, zone) + " to " +
                                           event_clock(*day.civil_dusk, date, zone));
    }
    if (is_up) {
        text += event_line("Hot hours", clock_range_words(sun::solar_clock(day, 11.0),
                                                          sun::solar_clock(day, 16.0), zone));
    }
    return text;
}

std::string hours_text(const SunDate& date, const SunPlace& place) {
    TextTable table({{.heading = "Clock"},
                     {.heading = "Height", .align = Align::right},
                     {.heading = "Bearing", .align = Align::right},
                     {.heading = ""},
                     {.heading = "Shadow of 1 m", .align = Align::right}});
    bool has_rows = false;
    for (const SunInstant& hour : date.hours) {
        if (hour.position.altitude_true < sun::rise_altitude()) continue;
        has_rows = true;
        table.add_row({clock_words_at(hour.utc, place.zone),
                       fixed_words(hour.altitude_apparent.in_degrees(), 1) + "°",
                       degrees_words(hour.position.azimuth), bearing_words(hour.position.azimuth),
                       shadow_words(hour.altitude_apparent)});
    }
    return has_rows ? "\n" + table.text() + "\n" + air_line(place) + "\n" : "";
}

std::string range_table(const SunPlace& place, const std::vector<SunDate>& dates) {
    TextTable table({{.heading = "Date"},
                     {.heading = "Dawn", .align = Align::right},
                     {.heading = "Sunrise", .align = Align::right},
                     {.heading = "Noon", .align = Align::right},
                     {.heading = "Sunset", .align = Align::right},
                     {.heading = "Dusk", .align = Align::right},
                     {.heading = "Daylight", .align = Align::right},
                     {.heading = "Noon height", .align = Align::right}});
    for (const SunDate& date : dates) {
        const sun::SunDay& day = date.day;
        table.add_row(
            {short_date_words(date.date), clock_or_dash(day.civil_dawn, place.zone),
             clock_or_dash(day.sunrise, place.zone), clock_words_at(day.solar_noon, place.zone),
             clock_or_dash(day.sunset, place.zone), clock_or_dash(day.civil_dusk, place.zone),
             daylight_words(day), fixed_words(day.noon_altitude.in_degrees(), 1) + "°"});
    }
    return table.text();
}

/// "2026-06-21 13:30:05".
std::string stamp(UtcSeconds instant, const sun::TimeZone& zone) {
    const sun::ClockTime clock = zone.clock(instant);
    std::array<char, 16> time{};
    std::snprintf(time.data(), time.size(), "%02d:%02d:%02d", clock.seconds_of_day / 3600,
                  clock.seconds_of_day / 60 % 60, clock.seconds_of_day % 60);
    return iso_date(clock.date) + " " + time.data();
}

/// The same in universal time, rounded alike.
std::string utc_stamp(UtcSeconds instant) {
    const std::string text =
        sun::utc_text(UtcSeconds::since_1970(std::round(instant.since_1970())));
    return text.substr(0, 10) + " " + text.substr(11, 8);
}

}  // namespace

std::string sun_dates_text(const SunPlace& place, const std::vector<SunDate>& dates,
                           const std::string& note) {
    if (dates.size() == 1) {
        const SunDate& only = dates.front();
        return heading(place, "The sun on " + date_and_year_words(only.date), note) +
               events_text(only, place) + hours_text(only, place);
    }
    return heading(place,
                   "The sun, " + date_range_and_year_words(dates.front().date, dates.back().date),
                   note) +
           range_table(place, dates);
}

std::string sun_instants_text(const SunPlace& place, const std::vector<SunInstant>& instants) {
    TextTable table({{.heading = "Clock"},
                     {.heading = "Universal time"},
                     {.heading = "Height", .align = Align::right},
                     {.heading = "Seen", .align = Align::right},
                     {.heading = "Bearing", .align = Align::right},
                     {.heading = "Shadow", .align = Align::right}});
    for (const SunInstant& instant : instants) {
        table.add_row({stamp(instant.utc, place.zone), utc_stamp(instant.utc),
                       fixed_words(instant.position.altitude_true.in_degrees(), 3) + "°",
                       fixed_words(instant.altitude_apparent.in_degrees(), 3) + "°",
                       fixed_words(instant.position.azimuth.in_degrees(), 3) + "°",
                       shadow_words(instant.altitude_apparent)});
    }
    return heading(place, "The sun at " + count_words(instants.size(), "instant"), "") +
           table.text() + "\n" +
           wrapped_text(air_line(place) + " Shadow: of a stick 1 m high on level ground.") + "\n";
}

}  // namespace sunfleck::output
