#include "exposure/sun_days.h"

#include "sunfleck/base/parallel.h"
#include "sunfleck/exposure/spot_sun.h"

#include <cstddef>
#include <optional>
#include <utility>

namespace sunfleck::exposure {
namespace {

// Clock hours that share time with the sun's day, which may reach into the civil days around.
std::vector<sun::CivilHour> hours_of(const sun::SunDay& day, Date date, const sun::TimeZone& zone) {
    std::vector<sun::CivilHour> hours;
    for (const int shift : {-1, 0, 1}) {
        for (const sun::CivilHour& hour : zone.hours(add_days(date, shift))) {
            if (hour.to > day.up_from && hour.from < day.up_to) hours.push_back(hour);
        }
    }
    return hours;
}

TracedDay traced_day(const geometry::Garden& garden, const sun::Place& place,
                     const sun::TimeZone& zone, Date date) {
    const sun::SunDay day = sun::sun_day(date, place, zone);
    TracedDay traced{.date = date,
                     .arc = SunArc(day.up_from, day.up_to, place),
                     .hot = hot_hours(day),
                     .hours = hours_of(day, date, zone),
                     .cuts = {},
                     .optics = geometry::optics_on(garden, date)};
    traced.cuts = slice_cuts(traced.hours, traced.hot);
    return traced;
}

}  // namespace

std::vector<TracedDay> traced_days(const geometry::Garden& garden, const sun::Place& place,
                                   const sun::TimeZone& zone, const std::vector<Date>& dates,
                                   int thread_count) {
    std::vector<std::optional<TracedDay>> made(dates.size());
    parallel_for_each_index(dates.size(), thread_count, [&](std::size_t i) {
        made[i] = traced_day(garden, place, zone, dates[i]);
    });
    std::vector<TracedDay> days;
    days.reserve(made.size());
    for (std::optional<TracedDay>& day : made) days.push_back(std::move(*day));
    return days;
}

}  // namespace sunfleck::exposure
