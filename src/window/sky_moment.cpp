#include "window/sky_moment.h"

#include <algorithm>

namespace sunfleck::window {
namespace {

constexpr int minutes_of_day = 1440;
constexpr int longest_clock_step_min = 180;

int floor_div(int a, int b) {
    return a >= 0 ? a / b : -((b - 1 - a) / b);
}

}  // namespace

SkyMoment later(SkyMoment moment, int minutes) {
    const int total = moment.minute + minutes;
    const int days = floor_div(total, minutes_of_day);
    return {add_days(moment.date, days), total - days * minutes_of_day};
}

SkyMoment days_later(SkyMoment moment, int days) {
    return {add_days(moment.date, days), moment.minute};
}

SkyMoment months_later(SkyMoment moment, int months) {
    const int count = 12 * year_of(moment.date) +
                      static_cast<int>(static_cast<unsigned>(moment.date.month())) - 1 + months;
    const int year = floor_div(count, 12);
    const auto month = static_cast<unsigned>(count - 12 * year + 1);
    const Date next = month == 12 ? make_date(year + 1, 1, 1) : make_date(year, month + 1, 1);
    const Date last = add_days(next, -1);
    const unsigned day =
        std::min(static_cast<unsigned>(moment.date.day()), static_cast<unsigned>(last.day()));
    return {make_date(year, month, day), moment.minute};
}

UtcSeconds instant_of(SkyMoment moment, const sun::TimeZone& zone) {
    for (int skipped = 0; skipped <= longest_clock_step_min; ++skipped) {
        const SkyMoment at = later(moment, -skipped);
        const auto instants = zone.instants(at.date, 60 * at.minute);
        if (!instants.empty()) return instants.front().plus_seconds(60.0 * skipped);
    }
    // A zone that skipped a whole date: the clock at its start.
    const auto before = zone.instants(add_days(moment.date, -1), 60 * moment.minute);
    return before.empty() ? UtcSeconds{} : before.front().plus_seconds(86400.0);
}

}  // namespace sunfleck::window
