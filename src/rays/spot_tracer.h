#pragma once

#include "rays/day_sweep.h"
#include "rays/shadow_finder.h"
#include "rays/trace_scene.h"
#include "rays/veil_mixer.h"
#include "sunfleck/rays/light_tracer.h"

#include <cstdint>
#include <vector>

namespace sunfleck::rays {

/// Spans of days one after another, and the place of each day's first.
struct DaySpans {
    std::vector<std::uint32_t> first{0};
    std::vector<LightSpan> spans;
    void clear() {
        first.assign(1, 0);
        spans.clear();
    }
};

/// Traces one spot after another; one for each thread.
class SpotTracer {
  public:
    explicit SpotTracer(const TraceScene& scene);

    /// Only these groups of days from now on; at first all.
    void set_groups(std::uint16_t first, std::uint16_t end) { finder_.set_groups(first, end); }

    /// Finds what the pieces [first, end) do to the spot; appended to `items`.
    void find(const LightSpot& spot, std::size_t first, std::size_t end, SpotItems& items);
    /// Finds what lies behind the spot's wall, if it has one; appended to `items`.
    void find_half_space(const LightSpot& spot, SpotItems& items);
    /// Sorts the items and appends the days that they make.
    void mix(const LightSpot& spot, SpotItems& items, DaySpans& days,
             const KnownSpans* known = nullptr);
    /// Appends the spot's days from nothing.
    void trace(const LightSpot& spot, DaySpans& days);

  private:
    TraceScene scene_;
    ShadowFinder finder_;
    VeilMixer mixer_;
    DaySweep sweep_;
    SpotItems items_;
};

}  // namespace sunfleck::rays
