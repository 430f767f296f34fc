#include "sunfleck/rays/light_sums.h"

#include "sunfleck/base/parallel.h"
#include "sunfleck/base/require.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::rays {
namespace {

constexpr double tick_min = 1.0 / ticks_per_minute;

// Ticks, with a fraction, of the part of a day that is asked for.
struct Part {
    double from = 0.0;
    double to = 0.0;
};

double common_ticks(const Part& part, int from, int to) {
    return std::max(0.0, std::min(part.to, static_cast<double>(to)) -
                             std::max(part.from, static_cast<double>(from)));
}

double ticks_after_start(const SunTableDay& day, UtcSeconds instant) {
    return instant.seconds_after(day.start) * (ticks_per_minute / 60.0);
}

LightMinutes minutes_of_part(const SunTableDay& day, std::span<const LightSpan> spans,
                             const Part& part) {
    LightMinutes minutes;
    minutes.sun_up_min = tick_min * common_ticks(part, day.up_from_tick, day.up_to_tick);
    for (const LightSpan& span : spans) {
        const double lit = tick_min * common_ticks(part, span.from_tick, span.to_tick);
        (span.is_full() ? minutes.full_min : minutes.filtered_min) += lit;
        minutes.effective_min += lit * static_cast<double>(span.transmittance);
    }
    minutes.shade_min = std::max(0.0, minutes.sun_up_min - minutes.full_min - minutes.filtered_min);
    return minutes;
}

void add(const LightMinutes& part, LightMinutes& sum) {
    sum.sun_up_min += part.sun_up_min;
    sum.full_min += part.full_min;
    sum.filtered_min += part.filtered_min;
    sum.shade_min += part.shade_min;
    sum.effective_min += part.effective_min;
}

}  // namespace

LightMinutes day_minutes(const SunTable& sun, const LightSpans& light, std::size_t spot,
                         std::size_t day) {
    const SunTableDay& of_day = sun.days()[day];
    const Part whole{.from = static_cast<double>(of_day.up_from_tick),
                     .to = static_cast<double>(of_day.up_to_tick)};
    return minutes_of_part(of_day, light.day(spot, day), whole);
}

LightMinutes minutes_between(const SunTable& sun, const LightSpans& light, std::size_t spot,
                             std::size_t day, UtcSeconds from, UtcSeconds to) {
    const SunTableDay& of_day = sun.days()[day];
    const Part part{.from = ticks_after_start(of_day, from), .to = ticks_after_start(of_day, to)};
    return minutes_of_part(of_day, light.day(spot, day), part);
}

std::vector<LightSpell> spells(const SunTable& sun, const LightSpans& light, std::size_t spot,
                               std::size_t day, SpellKind kind) {
    const SunTableDay& of_day = sun.days()[day];
    std::vector<LightSpell> found;
    int end = -1;         // tick at which the last spell ends
    double ticks = 0.0;   // its length
    double passed = 0.0;  // weighted by transmittance
    for (const LightSpan& span : light.day(spot, day)) {
        if (kind == SpellKind::full && !span.is_full()) continue;
        if (span.from_tick != end) {
            found.push_back({.from = of_day.instant_of(span.from_tick), .to = {}});
            ticks = 0.0;
            passed = 0.0;
        }
        end = span.to_tick;
        const double length = span.to_tick - span.from_tick;
        ticks += length;
        passed += length * static_cast<double>(span.transmittance);
        found.back().to = of_day.instant_of(end);
        found.back().transmittance = passed / ticks;
    }
    return found;
}

std::optional<std::size_t> worst_day(const SunTable& sun, const LightSpans& light, std::size_t spot,
                                     std::span<const std::size_t> days) {
    constexpr double same_min = 1e-6;
    std::optional<std::size_t> worst;
    double least = 0.0;
    for (const std::size_t day : days) {
        const double effective = day_minutes(sun, light, spot, day).effective_min;
        if (worst && effective >= least - same_min) continue;
        worst = day;
        least = effective;
    }
    return worst;
}

std::vector<LightMinutes> window_sums(const SunTable& sun, const LightSpans& light,
                                      std::span<const DayWindow> windows, int thread_count) {
    std::vector<LightMinutes> sums(light.spot_count());
    parallel_for_each_index(sums.size(), thread_count, [&](std::size_t spot) {
        for (const DayWindow& window : windows) {
            add(minutes_between(sun, light, spot, window.day, window.from, window.to), sums[spot]);
        }
    });
    return sums;
}

YearSheet year_sheet(const SunTable& sun, const LightSpans& light, std::size_t spot,
                     std::span<const UtcSeconds> day_starts, double cell_min, int cell_count) {
    SUNFLECK_REQUIRE(day_starts.size() == sun.days().size(), "one start per day");
    YearSheet sheet{.cell_count = cell_count, .cells = {}};
    sheet.cells.reserve(day_starts.size() * static_cast<std::size_t>(cell_count));
    for (std::size_t day = 0; day < day_starts.size(); ++day) {
        for (int cell = 0; cell < cell_count; ++cell) {
            const UtcSeconds from = day_starts[day].plus_seconds(60.0 * cell_min * cell);
            sheet.cells.push_back(
                minutes_between(sun, light, spot, day, from, from.plus_seconds(60.0 * cell_min)));
        }
    }
    return sheet;
}

}  // namespace sunfleck::rays
