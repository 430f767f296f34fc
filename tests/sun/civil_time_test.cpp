#include "sunfleck/sun/civil_time.h"

#include "base/within.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <ctime>

using namespace sunfleck;
using namespace sunfleck::sun;
using sunfleck::test::within;

namespace {

TimeZone zone(const char* name) {
    return TimeZone::find(name).value();
}

UtcSeconds utc(int year, unsigned month, unsigned day, double hours) {
    return UtcSeconds::since_1970(days_since_1970(make_date(year, month, day)) * 86400.0 +
                                  hours * 3600.0);
}

/// glibc's answer, which reads the zone's own rule beyond its table. Sets the process's zone.
class GlibcClock {
  public:
    explicit GlibcClock(const char* name) {
        if (const char* before = std::getenv("TZ")) before_ = before;
        setenv("TZ", name, 1);
        tzset();
    }
    ~GlibcClock() {
        before_.empty() ? static_cast<void>(unsetenv("TZ"))
                        : static_cast<void>(setenv("TZ", before_.c_str(), 1));
        tzset();
    }
    GlibcClock(const GlibcClock&) = delete;
    GlibcClock& operator=(const GlibcClock&) = delete;

    [[nodiscard]] ClockTime clock(UtcSeconds instant) const {
        const auto seconds = static_cast<std::time_t>(instant.since_1970());
        std::tm local{};
        localtime_r(&seconds, &local);
        return {.date = make_date(local.tm_year + 1900, static_cast<unsigned>(local.tm_mon + 1),
                                  static_cast<unsigned>(local.tm_mday)),
                .seconds_of_day = local.tm_hour * 3600 + local.tm_min * 60 + local.tm_sec,
                .utc_offset_s = static_cast<int>(local.tm_gmtoff)};
    }

  private:
    std::string before_;
};

constexpr std::array zones{
    "Europe/London",      "Europe/Berlin",     "America/New_York", "America/St_Johns",
    "America/Asuncion",   "America/Santiago",  "Australia/Sydney", "Australia/Lord_Howe",
    "Asia/Kolkata",       "Asia/Kathmandu",    "Asia/Tokyo",       "Pacific/Chatham",
    "Pacific/Kiritimati", "Africa/Casablanca", "Asia/Jerusalem",   "Africa/Cairo",
    "Europe/Istanbul",    "Antarctica/Troll",  "America/Nuuk",     "UTC"};

}  // namespace

TEST_CASE("the clock is glibc's in every hour of past and coming years", "[sun][cross]") {
    for (const char* name : zones) {
        const GlibcClock glibc(name);
        const TimeZone ours = zone(name);
        int wrong = 0;
        // 5 h 17 min 31 s reaches every part of the day; 1950 to 2100.
        for (double t = -631152000.0; t < 4102444800.0; t += 19051.0) {
            const auto instant = UtcSeconds::since_1970(t);
            const ClockTime a = ours.clock(instant);
            const ClockTime b = glibc.clock(instant);
            if (a.date != b.date || a.seconds_of_day != b.seconds_of_day ||
                a.utc_offset_s != b.utc_offset_s) {
                CAPTURE(name, utc_text(instant), a.utc_offset_s, b.utc_offset_s);
                if (++wrong <= 3) FAIL_CHECK("another clock than glibc's");
            }
        }
        CAPTURE(name);
        CHECK(wrong == 0);
    }
}

// Rules of the zones as the law has them: EU directive 2000/84/EC (01:00 UTC, last Sundays of
// March and October); Lord Howe shifts by half an hour.
TEST_CASE("a skipped hour has no instant and a doubled hour has two", "[sun][published]") {
    const TimeZone london = zone("Europe/London");
    CHECK(london.instants(make_date(2026, 3, 29), 90 * 60).empty());
    CHECK(london.instants(make_date(2026, 3, 29), 120 * 60) == std::vector{utc(2026, 3, 29, 1.0)});
    CHECK(london.instants(make_date(2026, 10, 25), 90 * 60) ==
          std::vector{utc(2026, 10, 25, 0.5), utc(2026, 10, 25, 1.5)});
    CHECK(london.instants(make_date(2026, 6, 21), 0) == std::vector{utc(2026, 6, 20, 23.0)});
    CHECK(zone("Asia/Kathmandu").instants(make_date(2026, 1, 1), 0) ==
          std::vector{utc(2025, 12, 31, 18.25)});
}

TEST_CASE("the hours of a day are listed as the clock shows them", "[sun][property]") {
    const TimeZone london = zone("Europe/London");
    CHECK(london.hours(make_date(2026, 6, 21)).size() == 24);
    CHECK(london.hours(make_date(2026, 3, 29)).size() == 23);
    const auto autumn = london.hours(make_date(2026, 10, 25));
    REQUIRE(autumn.size() == 25);
    CHECK(autumn[1].hour == 1);
    CHECK(autumn[2].hour == 1);
    CHECK(autumn[3].hour == 2);

    const TimeZone lord_howe = zone("Australia/Lord_Howe");
    const auto spring = lord_howe.hours(make_date(2026, 10, 4));
    REQUIRE(spring.size() == 24);
    CHECK(spring[2].to.seconds_after(spring[2].from) == within(1800.0, 1e-6));  // 02:30 to 03:00
    const auto fall = lord_howe.hours(make_date(2026, 4, 5));
    REQUIRE(fall.size() == 25);
    CHECK(fall[2].hour == 1);
    CHECK(fall[2].to.seconds_after(fall[2].from) == within(1800.0, 1e-6));  // 01:30 to 02:00 again
    // Samoa crossed the date line by leaving 30 December 2011 out.
    CHECK(zone("Pacific/Apia").hours(make_date(2011, 12, 30)).empty());
}

TEST_CASE("hours follow each other and show their own hour", "[sun][property]") {
    for (const char* name : zones) {
        const TimeZone clock = zone(name);
        UtcSeconds last = clock.hours(make_date(2025, 12, 31)).back().to;
        for (Date day = make_date(2026, 1, 1); day < make_date(2027, 1, 1);
             day = add_days(day, 1)) {
            for (const CivilHour& hour : clock.hours(day)) {
                const ClockTime shown = clock.clock(hour.from);
                if (hour.from != last || shown.date != day ||
                    shown.seconds_of_day / 3600 != hour.hour) {
                    CAPTURE(name, iso_date(day), hour.hour);
                    FAIL_CHECK("a gap, or not the hour that the clock shows");
                }
                last = hour.to;
            }
        }
        CAPTURE(name);
        CHECK(last == clock.hours(make_date(2027, 1, 1)).front().from);
    }
}

TEST_CASE("an instant of a clock reading shows that reading", "[sun][property]") {
    for (const char* name : zones) {
        const TimeZone clock = zone(name);
        for (Date day = make_date(2038, 1, 1); day < make_date(2039, 1, 1);
             day = add_days(day, 1)) {
            for (const int second : {0, 5400, 7500, 43200, 84600}) {
                for (const UtcSeconds instant : clock.instants(day, second)) {
                    const ClockTime shown = clock.clock(instant);
                    if (shown.date != day || shown.seconds_of_day != second) {
                        CAPTURE(name, iso_date(day), second);
                        FAIL_CHECK("another reading");
                    }
                }
            }
        }
        CHECK(clock.instants(make_date(2038, 6, 1), 43200).size() == 1);
    }
}

TEST_CASE("an unknown zone is an error that names the nearest", "[sun][property]") {
    struct Case {
        const char* typed;
        const char* nearest;
    };
    for (const Case c : {Case{"Europe/Lodnon", "Europe/London"}, Case{"London", "Europe/London"},
                         Case{"europe/paris", "Europe/Paris"}, Case{"New York", "America/New_York"},
                         Case{"Asia/Katmandu ", "Asia/Katmandu"}}) {
        CAPTURE(c.typed);
        const auto found = TimeZone::find(c.typed);
        REQUIRE_FALSE(found);
        REQUIRE(found.error().size() == 1);
        CHECK(found.error()[0].code == "unknown_time_zone");
        CHECK(found.error()[0].nearest == c.nearest);
    }
    for (const std::string& junk :
         {std::string(), std::string("../../etc/passwd"), std::string("posix"),
          std::string("Europe"), std::string("\0", 1), std::string(10000, 'x'),
          std::string("tzdata.zi")}) {
        CHECK_FALSE(TimeZone::find(junk));
    }
}

TEST_CASE("every zone that is listed can be found", "[sun][property]") {
    const auto names = TimeZone::all_names();
    CHECK(names.size() > 400);
    CHECK(std::is_sorted(names.begin(), names.end()));
    for (const std::string& name : names) {
        CAPTURE(name);
        CHECK(TimeZone::find(name));
    }
}

TEST_CASE("instants are written in UTC, with offset, and by the clock", "[sun][property]") {
    const TimeZone london = zone("Europe/London");
    const UtcSeconds noon = utc(2026, 6, 21, 12.5);
    CHECK(utc_text(noon) == "2026-06-21T12:30:00.000Z");
    CHECK(local_text(noon, london) == "2026-06-21T13:30:00.000+01:00");
    CHECK(clock_text(noon, london) == "13:30");
    CHECK(clock_text(noon.plus_seconds(29.9), london) == "13:30");
    CHECK(clock_text(noon.plus_seconds(30.0), london) == "13:31");
    CHECK(utc_text(noon.plus_seconds(-0.0004)) == "2026-06-21T12:30:00.000Z");
    CHECK(utc_text(UtcSeconds::since_1970(-0.25)) == "1969-12-31T23:59:59.750Z");
    CHECK(local_text(noon, zone("America/St_Johns")) == "2026-06-21T10:00:00.000-02:30");
}
