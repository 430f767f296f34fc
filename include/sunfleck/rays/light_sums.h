#pragma once

#include "sunfleck/rays/light_spans.h"
#include "sunfleck/rays/sun_table.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

/// Figures from spans, without tracing again.
namespace sunfleck::rays {

/// Minutes of the sun's middle; see exposure::SunMinutes for their meaning.
struct LightMinutes {
    double sun_up_min = 0.0;
    double full_min = 0.0;
    double filtered_min = 0.0;
    double shade_min = 0.0;
    double effective_min = 0.0;
    bool operator==(const LightMinutes&) const = default;
};

/// A whole day.
[[nodiscard]] LightMinutes day_minutes(const SunTable& sun, const LightSpans& light,
                                       std::size_t spot, std::size_t day);
/// The part of the day from one instant to another; ends beyond the day's sun are allowed. Where
/// an end cuts a filtered span, the span's mean transmittance is taken for the part.
[[nodiscard]] LightMinutes minutes_between(const SunTable& sun, const LightSpans& light,
                                           std::size_t spot, std::size_t day, UtcSeconds from,
                                           UtcSeconds to);

/// What ends a spell.
enum class SpellKind { full, any_light };

/// A longest run of full sun, or of full or filtered sun.
struct LightSpell {
    UtcSeconds from;
    UtcSeconds to;
    double transmittance = 0.0;  ///< mean
};
[[nodiscard]] std::vector<LightSpell> spells(const SunTable& sun, const LightSpans& light,
                                             std::size_t spot, std::size_t day, SpellKind kind);

/// The day with the least effective sun among `days` (indices into the table), the earliest of
/// equals (to 1e-6 min); nothing when there are none.
[[nodiscard]] std::optional<std::size_t> worst_day(const SunTable& sun, const LightSpans& light,
                                                   std::size_t spot,
                                                   std::span<const std::size_t> days);

/// A clock window on one day of the table.
struct DayWindow {
    std::size_t day = 0;
    UtcSeconds from;
    UtcSeconds to;
};
/// Sum over windows for every spot: "the sun from 11 to 16 between 1 June and 31 August".
[[nodiscard]] std::vector<LightMinutes> window_sums(const SunTable& sun, const LightSpans& light,
                                                    std::span<const DayWindow> windows,
                                                    int thread_count = 0);

/// One spot's year as a picture needs it: for each day and each cell of time, the minutes of full
/// and filtered sun and the effective ones. Cells count from `day_start` of each day.
struct YearSheet {
    int cell_count = 0;               ///< cells a day
    std::vector<LightMinutes> cells;  ///< day by day
};
[[nodiscard]] YearSheet year_sheet(const SunTable& sun, const LightSpans& light, std::size_t spot,
                                   std::span<const UtcSeconds> day_starts, double cell_min,
                                   int cell_count);

}  // namespace sunfleck::rays
