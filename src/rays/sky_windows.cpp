#include "rays/sky_windows.h"

#include "rays/sample_walk.h"
#include "sunfleck/base/parallel.h"

#include <algorithm>

namespace sunfleck::rays {
namespace {

struct DayWindows {
    std::vector<TickSpan> windows;
    bool stays_above = true;
};

DayWindows windows_of(const SunTable& sun, const SunTableDay& day,
                      const geometry::Horizon& horizon) {
    DayWindows made;
    const auto is_open = [&](Vec3 d) { return geometry::is_over_horizon(horizon, d); };
    walk_samples(sun, day, 0, day.sample_count - 1, is_open, [&](int from, int to, bool open) {
        const int first = std::max(from, int{day.up_from_tick});
        const int end = std::min(to, int{day.up_to_tick});
        if (!open || first >= end) return;
        made.windows.push_back(
            {static_cast<std::uint16_t>(first), static_cast<std::uint16_t>(end)});
    });
    for (const TickSpan& window : made.windows) {
        const int last = (window.to - 1) / ticks_per_minute;
        for (int i = (window.from + ticks_per_minute - 1) / ticks_per_minute; i <= last; ++i) {
            made.stays_above = made.stays_above && sun.direction(day, i).z >= 0.0;
        }
    }
    return made;
}

}  // namespace

SkyWindows::SkyWindows(const SunTable& sun, const geometry::Horizon& horizon, int thread_count) {
    std::vector<DayWindows> days(sun.days().size());
    parallel_for_each_index(days.size(), thread_count, [&](std::size_t i) {
        days[i] = windows_of(sun, sun.days()[i], horizon);
    });
    first_.push_back(0);
    for (const DayWindows& day : days) {
        windows_.insert(windows_.end(), day.windows.begin(), day.windows.end());
        first_.push_back(windows_.size());
        sun_stays_above_ = sun_stays_above_ && day.stays_above;
    }
}

}  // namespace sunfleck::rays
