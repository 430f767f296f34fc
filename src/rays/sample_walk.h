#pragma once

#include "rays/day_items.h"
#include "sunfleck/rays/sun_table.h"

#include <algorithm>

namespace sunfleck::rays {

/// The sun between two samples, on the straight line from one to the other.
[[nodiscard]] inline Vec3 direction_at_tick(const SunTable& sun, const SunTableDay& day, int tick) {
    const int sample = std::min(tick / ticks_per_minute, day.sample_count - 2);
    const double share = static_cast<double>(tick - sample * ticks_per_minute) / ticks_per_minute;
    const Vec3 from = sun.direction(day, sample);
    return from + share * (sun.direction(day, sample + 1) - from);
}

/// Equal, also for numbers with a fraction: two calls with equal input give equal output.
template <typename Value>
[[nodiscard]] bool is_same(const Value& a, const Value& b) {
    return !(a < b) && !(b < a);
}

/// The first tick after sample `from` at which `answer(direction)` is no longer what it was at
/// that sample; it must have changed by the next.
template <typename Answer, typename Value>
[[nodiscard]] int change_tick(const SunTable& sun, const SunTableDay& day, int from,
                              const Value& before, const Answer& answer) {
    int low = from * ticks_per_minute;
    int high = low + ticks_per_minute;
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        (is_same(answer(direction_at_tick(sun, day, middle)), before) ? low : high) = middle;
    }
    return high;
}

/// Asks at every sample of [from, to] and calls `tell(first_tick, end_tick, value)` for each run
/// of one value; runs change between samples, to a tick.
template <typename Answer, typename Tell>
void walk_samples(const SunTable& sun, const SunTableDay& day, int from, int to,
                  const Answer& answer, const Tell& tell) {
    if (from > to) return;
    int start = from * ticks_per_minute;
    auto value = answer(sun.direction(day, from));
    for (int sample = from + 1; sample <= to; ++sample) {
        const auto next = answer(sun.direction(day, sample));
        if (is_same(next, value)) continue;
        const int tick = change_tick(sun, day, sample - 1, value, answer);
        tell(start, tick, value);
        start = tick;
        value = next;
    }
    tell(start, to * ticks_per_minute + 1, value);
}

}  // namespace sunfleck::rays
