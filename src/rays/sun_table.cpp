#include "sunfleck/rays/sun_table.h"

#include "sunfleck/base/parallel.h"
#include "sunfleck/sun/refraction.h"
#include "sunfleck/sun/sun_day.h"
#include "sunfleck/sun/sun_track.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunfleck::rays {
namespace {

constexpr double minute_s = 60.0;

// Turned by `shift` towards the celestial north pole; a direction at the pole stays there.
Vec3 turned_to_pole(Vec3 direction, Vec3 pole, Angle shift) {
    const double along = dot(direction, pole);
    const Vec3 off = direction - along * pole;
    const double size = length(off);
    if (!(size > 1e-12)) return direction;
    const double to_pole = std::clamp(std::atan2(along, size) + shift.in_radians(),
                                      -0.5 * std::numbers::pi, 0.5 * std::numbers::pi);
    return std::sin(to_pole) * pole + (std::cos(to_pole) / size) * off;
}

Vec3 north_pole(Latitude latitude) {
    return {0.0, cos(latitude.angle()), sin(latitude.angle())};
}

int rounded_tick(double seconds) {
    return static_cast<int>(std::lround(seconds * (ticks_per_minute / minute_s)));
}

SunTableDay empty_day(Date date, const sun::Place& place) {
    const sun::SunDay day = sun::sun_day(date, place);
    SunTableDay made{.date = date, .up_from = day.up_from, .up_to = day.up_to};
    made.start = UtcSeconds::since_1970(std::floor(day.up_from.since_1970() / minute_s) * minute_s);
    const double minutes = std::ceil(day.up_to.seconds_after(made.start) / minute_s);
    made.sample_count = static_cast<std::uint16_t>(std::max(1.0, minutes) + 1.0);
    made.up_from_tick =
        static_cast<std::uint16_t>(rounded_tick(day.up_from.seconds_after(made.start)));
    made.up_to_tick = static_cast<std::uint16_t>(rounded_tick(day.up_to.seconds_after(made.start)));
    return made;
}

void fill_day(SunTableDay& day, const sun::SunTrack& track, const SunTableOptions& options,
              float* directions) {
    const Vec3 pole = north_pole(track.place().latitude);
    const double shift = options.declination_shift.in_radians();
    for (int i = 0; i < day.sample_count; ++i) {
        const UtcSeconds instant = day.start.plus_seconds(i * minute_s);
        Vec3 direction = track.true_direction(instant);
        if (std::abs(shift) > 0.0) {
            direction = turned_to_pole(direction, pole, options.declination_shift);
        }
        if (options.is_refracted) direction = sun::apparent_direction(direction);
        *directions++ = static_cast<float>(direction.x);
        *directions++ = static_cast<float>(direction.y);
        *directions++ = static_cast<float>(direction.z);
    }
    const double half_s = 0.5 * (day.sample_count - 1) * minute_s;
    const UtcSeconds middle = day.start.plus_seconds(half_s);
    const Vec3 direction =
        turned_to_pole(track.true_direction(middle), pole, options.declination_shift);
    const Vec3 up{0.0, -pole.z, pole.y};
    day.declination = Angle::radians(std::asin(std::clamp(dot(direction, pole), -1.0, 1.0)));
    const double hour_angle = std::atan2(-direction.x, dot(direction, up));
    day.start_hour_angle = Angle::radians(hour_angle - half_s * (std::numbers::pi / 43200.0));
}

}  // namespace

int SunTableDay::tick_of(UtcSeconds instant) const {
    const double seconds = std::clamp(instant.seconds_after(start), 0.0, 2.0 * 86400.0);
    return std::clamp(rounded_tick(seconds), int{up_from_tick}, int{up_to_tick});
}

SunTable::SunTable(std::span<const Date> dates, const sun::Place& place,
                   const SunTableOptions& options)
    : place_(place), days_(dates.size()) {
    if (dates.empty()) return;
    parallel_for_each_index(dates.size(), options.thread_count,
                            [&](std::size_t i) { days_[i] = empty_day(dates[i], place); });
    std::uint32_t sample = 0;
    for (SunTableDay& day : days_) {
        day.first_sample = sample;
        sample += day.sample_count;
    }
    directions_.resize(3 * std::size_t{sample});
    const auto [first, last] = std::minmax_element(
        days_.begin(), days_.end(),
        [](const SunTableDay& a, const SunTableDay& b) { return a.start < b.start; });
    const sun::SunTrack track(place, first->start.plus_seconds(-minute_s),
                              last->start.plus_seconds(last->sample_count * minute_s));
    parallel_for_each_index(days_.size(), options.thread_count, [&](std::size_t i) {
        fill_day(days_[i], track, options, &directions_[3 * std::size_t{days_[i].first_sample}]);
    });
}

std::size_t SunTable::asked_count() const {
    std::size_t count = 0;
    for (const SunTableDay& day : days_) {
        count += static_cast<std::size_t>(day.end_asked() - day.first_asked());
    }
    return count;
}

std::vector<Date> dates_from_to(Date from, Date to) {
    std::vector<Date> dates;
    for (int i = 0; i <= days_between(from, to); ++i) dates.push_back(add_days(from, i));
    return dates;
}

}  // namespace sunfleck::rays
