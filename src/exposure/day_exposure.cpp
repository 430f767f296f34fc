#include "sunfleck/exposure/spot_sun.h"

#include <algorithm>
#include <cstddef>

namespace sunfleck::exposure {
namespace {

constexpr double minute_s = 60.0;

void add(const SunSlice& slice, const HotHours& hot, SunMinutes& sum) {
    const double minutes = slice.to.seconds_after(slice.from) / minute_s;
    const double full = slice.shares.full * minutes;
    const double filtered = slice.shares.filtered * minutes;
    const double effective = slice.shares.effective * minutes;
    sum.sun_up_min += minutes;
    sum.full_min += full;
    sum.filtered_min += filtered;
    sum.shade_min += minutes - full - filtered;
    sum.effective_min += effective;
    if (slice.from >= hot.from && slice.to <= hot.to) {
        sum.hot_full_min += full;
        sum.hot_effective_min += effective;
    }
}

// Seconds that a slice and a span share.
double overlap_s(const SunSlice& slice, const SunSpan& span) {
    const UtcSeconds from = std::max(slice.from, span.from);
    const UtcSeconds to = std::min(slice.to, span.to);
    return std::max(0.0, to.seconds_after(from));
}

// The mean transmittance of the filtered light of a filtered span.
double transmittance_of(const SunSpan& span, const std::vector<SunSlice>& slices,
                        std::size_t& next) {
    if (span.state != SunState::filtered) return span.state == SunState::full ? 1.0 : 0.0;
    while (next < slices.size() && slices[next].to <= span.from) ++next;
    double filtered = 0.0;
    double let_through = 0.0;
    for (std::size_t i = next; i < slices.size() && slices[i].from < span.to; ++i) {
        const double seconds = overlap_s(slices[i], span);
        filtered += seconds * slices[i].shares.filtered;
        let_through += seconds * (slices[i].shares.effective - slices[i].shares.full);
    }
    return filtered > 0.0 ? let_through / filtered : 0.0;
}

void set_first_and_last_sun(DayExposure& day) {
    for (const SunSpan& span : day.spans) {
        if (span.state != SunState::full) continue;
        if (!day.first_sun) day.first_sun = span.from;
        day.last_sun = span.to;
    }
}

}  // namespace

DayExposure day_exposure(Date date, const DaySun& sun, std::span<const sun::CivilHour> hours,
                         const HotHours& hot) {
    DayExposure day;
    day.date = date;
    day.spans = sun.spans;
    std::size_t next = 0;
    for (SunSpan& span : day.spans) span.transmittance = transmittance_of(span, sun.slices, next);
    set_first_and_last_sun(day);
    for (const SunSlice& slice : sun.slices) add(slice, hot, day.total);
    std::size_t at = 0;
    for (const sun::CivilHour& hour : hours) {
        HourExposure row{.hour = hour.hour, .from = hour.from, .minutes = {}};
        while (at < sun.slices.size() && sun.slices[at].to <= hour.to) {
            if (sun.slices[at].from >= hour.from) add(sun.slices[at], hot, row.minutes);
            ++at;
        }
        if (row.minutes.sun_up_min > 0.0) day.hours.push_back(row);
    }
    return day;
}

std::vector<UtcSeconds> slice_cuts(std::span<const sun::CivilHour> hours, const HotHours& hot) {
    std::vector<UtcSeconds> cuts{hot.from, hot.to};
    for (const sun::CivilHour& hour : hours) cuts.insert(cuts.end(), {hour.from, hour.to});
    std::sort(cuts.begin(), cuts.end());
    cuts.erase(std::unique(cuts.begin(), cuts.end()), cuts.end());
    return cuts;
}

}  // namespace sunfleck::exposure
