#include "sunfleck/sun/civil_time.h"

#include "sun/nearest_zone.h"

#include <date/tz.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <exception>

namespace sunfleck::sun {
namespace {

constexpr std::int64_t day_s = 86400;
constexpr int last_table_year = 2037;

std::chrono::seconds seconds(std::int64_t count) {
    return std::chrono::seconds(count);
}

/// Whole days and the seconds within the day of a count of seconds.
struct DaySplit {
    std::int64_t days;
    int seconds;
};

DaySplit split(std::int64_t total_s) {
    std::int64_t days = total_s / day_s;
    std::int64_t rest = total_s % day_s;
    if (rest < 0) {
        rest += day_s;
        --days;
    }
    return {days, static_cast<int>(rest)};
}

Date date_of_days(std::int64_t days_since_epoch) {
    return Date(std::chrono::sys_days(std::chrono::days(static_cast<int>(days_since_epoch))));
}

/// A date of a year up to 2037 on which every weekday rule falls as on `date`: the same month and
/// day counted from 1 January (January, February) or from 1 March (the rest), whose weekday is
/// the same. A common year is always found within eleven years.
Date table_date(Date date) {
    const bool early = date.month() <= std::chrono::February;
    const Date anchor = make_date(year_of(date), early ? 1U : 3U, 1U);
    const int into = days_between(anchor, date);
    for (int year = last_table_year;; --year) {
        const Date candidate = make_date(year, early ? 1U : 3U, 1U);
        if (days_between(candidate, anchor) % 7 == 0) return add_days(candidate, into);
    }
}

/// The same second of the day on table_date().
std::int64_t table_second(std::int64_t utc_s) {
    const DaySplit at = split(utc_s);
    return days_since_1970(table_date(date_of_days(at.days))) * day_s + at.seconds;
}

Problem no_database(const std::exception& error) {
    return {.kind = ProblemKind::file,
            .code = "no_zone_database",
            .message = std::string("The time zone database could not be read: ") + error.what(),
            .mend = "Install the package tzdata."};
}

std::int64_t rounded_s(UtcSeconds instant) {
    return std::llround(instant.since_1970());
}

}  // namespace

struct TimeZone::Zone {
    std::string name;
    const date::time_zone* table;

    [[nodiscard]] int offset_s(std::int64_t utc_s) const {
        date::sys_info info = table->get_info(date::sys_seconds(seconds(utc_s)));
        const bool past_table = info.end > date::sys_days(date::year(3000) / 1 / 1);
        const bool after_last_year =
            date_of_days(split(utc_s).days) > make_date(last_table_year, 12, 31);
        if (past_table && after_last_year) {
            info = table->get_info(date::sys_seconds(seconds(table_second(utc_s))));
        }
        return static_cast<int>(info.offset.count());
    }
};

Result<TimeZone> TimeZone::find(std::string_view name) {
    const std::vector<std::string> names = all_names();
    const std::string wanted(name);
    if (!names.empty() && !std::binary_search(names.begin(), names.end(), wanted)) {
        const std::string nearest = nearest_zone(wanted, names);
        return failure({.code = "unknown_time_zone",
                        .message = "There is no time zone \"" + wanted + "\".",
                        .mend = "Did you mean \"" + nearest + "\"?",
                        .nearest = nearest});
    }
    try {
        const date::time_zone* table = date::locate_zone(wanted);
        // The library reads a zone's file at the first question: ask it here, where a failure
        // can still be told.
        static_cast<void>(table->get_info(date::sys_seconds(seconds(0))));
        return TimeZone(std::make_shared<const Zone>(Zone{wanted, table}));
    } catch (const std::exception& error) {
        return failure(no_database(error));
    }
}

std::vector<std::string> TimeZone::all_names() {
    std::vector<std::string> names;
    try {
        for (const date::time_zone& zone : date::get_tzdb().zones) names.push_back(zone.name());
    } catch (const std::exception&) {
        return {};
    }
    std::sort(names.begin(), names.end());
    return names;
}

const std::string& TimeZone::name() const {
    return zone_->name;
}

ClockTime TimeZone::clock(UtcSeconds instant) const {
    const std::int64_t utc = rounded_s(instant);
    const int offset = zone_->offset_s(utc);
    const DaySplit local = split(utc + offset);
    return {
        .date = date_of_days(local.days), .seconds_of_day = local.seconds, .utc_offset_s = offset};
}

int TimeZone::utc_offset_s(UtcSeconds instant) const {
    return zone_->offset_s(rounded_s(instant));
}

std::vector<UtcSeconds> TimeZone::instants(Date date, int seconds_of_day) const {
    const std::int64_t local = days_since_1970(date) * day_s + seconds_of_day;
    // An instant's offset is the one in force a day before or a day after: no zone has changed
    // its clock twice within two days.
    std::array<int, 2> offsets{zone_->offset_s(local - day_s - day_s / 2),
                               zone_->offset_s(local + day_s + day_s / 2)};
    if (offsets[0] < offsets[1]) std::swap(offsets[0], offsets[1]);  // earlier instant first
    std::vector<UtcSeconds> found;
    for (const int offset : offsets) {
        const std::int64_t utc = local - offset;
        const auto instant = UtcSeconds::since_1970(static_cast<double>(utc));
        const bool repeated = !found.empty() && found.back() >= instant;
        if (!repeated && zone_->offset_s(utc) == offset) found.push_back(instant);
    }
    return found;
}

std::vector<CivilHour> TimeZone::hours(Date date) const {
    const std::int64_t midnight = days_since_1970(date) * day_s;
    std::vector<CivilHour> hours;
    // Walks from before the day begins anywhere on Earth to after it has ended, in stretches of
    // constant offset, and keeps of each what shows `date`, cut at the clock's full hours.
    std::int64_t from = midnight - std::int64_t{15} * 3600;
    const std::int64_t end = midnight + day_s + std::int64_t{15} * 3600;
    while (from < end) {
        const int offset = zone_->offset_s(from);
        std::int64_t to = from;
        while (to < end && zone_->offset_s(to) == offset) to += 3600;
        if (to < end) {
            std::int64_t same = to - 3600;
            while (to - same > 1) {
                const std::int64_t middle = same + (to - same) / 2;
                (zone_->offset_s(middle) == offset ? same : to) = middle;
            }
        }
        const std::int64_t local_end = std::min(to + offset, midnight + day_s);
        for (std::int64_t at = std::max(from + offset, midnight); at < local_end;) {
            const std::int64_t hour = (at - midnight) / 3600;
            const std::int64_t next = std::min(local_end, midnight + (hour + 1) * 3600);
            hours.push_back({static_cast<int>(hour),
                             UtcSeconds::since_1970(static_cast<double>(at - offset)),
                             UtcSeconds::since_1970(static_cast<double>(next - offset))});
            at = next;
        }
        from = to;
    }
    return hours;
}

namespace {

/// "2026-06-21T12:30:00.000" of a count of milliseconds since 1970.
std::string stamp(std::int64_t milliseconds) {
    const std::int64_t whole = (milliseconds - ((milliseconds % 1000) + 1000) % 1000) / 1000;
    const DaySplit at = split(whole);
    std::array<char, 32> clock{};
    std::snprintf(clock.data(), clock.size(), "T%02d:%02d:%02d.%03d", at.seconds / 3600,
                  at.seconds / 60 % 60, at.seconds % 60,
                  static_cast<int>(milliseconds - whole * 1000));
    return iso_date(date_of_days(at.days)) + clock.data();
}

std::int64_t rounded_ms(UtcSeconds instant) {
    return std::llround(instant.since_1970() * 1000.0);
}

/// "+01:00"; the seconds of historical local mean times are dropped.
std::string offset_text(int offset_s) {
    const int minutes = std::abs(offset_s) / 60;
    std::array<char, 16> text{};
    std::snprintf(text.data(), text.size(), "%c%02d:%02d", offset_s < 0 ? '-' : '+', minutes / 60,
                  minutes % 60);
    return text.data();
}

}  // namespace

std::string utc_text(UtcSeconds instant) {
    return stamp(rounded_ms(instant)) + "Z";
}

std::string local_text(UtcSeconds instant, const TimeZone& zone) {
    const int offset = zone.utc_offset_s(instant);
    return stamp(rounded_ms(instant) + std::int64_t{offset} * 1000) + offset_text(offset);
}

std::string clock_text(UtcSeconds instant, const TimeZone& zone) {
    const double minute = std::floor(instant.since_1970() / 60.0 + 0.5);
    const int at = zone.clock(UtcSeconds::since_1970(minute * 60.0)).seconds_of_day;
    std::array<char, 16> text{};
    std::snprintf(text.data(), text.size(), "%02d:%02d", at / 3600, at / 60 % 60);
    return text.data();
}

}  // namespace sunfleck::sun
