#pragma once

#include "sunfleck/rays/light_spans.h"

#include <cstddef>

namespace sunfleck::bench {

/// Effective minutes of a spot's day: its spans, each with its share of light.
[[nodiscard]] inline double effective_min(const rays::LightSpans& light, std::size_t spot,
                                          std::size_t day) {
    double ticks = 0.0;
    for (const rays::LightSpan& span : light.day(spot, day)) {
        ticks += (span.to_tick - span.from_tick) * static_cast<double>(span.transmittance);
    }
    return ticks / rays::ticks_per_minute;
}

}  // namespace sunfleck::bench
