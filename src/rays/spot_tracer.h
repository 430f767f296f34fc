#pragma once

#include "rays/day_sweep.h"
#include "rays/shadow_finder.h"
#include "rays/trace_scene.h"
#include "rays/veil_mixer.h"
#include "sunfleck/rays/light_tracer.h"

#include <cstdint>
#include <vector>

namespace sunfleck::rays {

/// Traces one spot after another; one for each thread.
class SpotTracer {
  public:
    explicit SpotTracer(const TraceScene& scene);

    /// Finds what the pieces [first, end) do to the spot; appended to `items`.
    void find(const LightSpot& spot, std::size_t first, std::size_t end, SpotItems& items);
    /// Finds what lies behind the spot's wall, if it has one; appended to `items`.
    void find_half_space(const LightSpot& spot, SpotItems& items);
    /// Puts sorted items together: each day's spans, and where each day's begin.
    void mix(const LightSpot& spot, const SpotItems& items, std::vector<std::uint32_t>& first,
             std::vector<LightSpan>& spans);
    /// The year of a spot from nothing.
    void trace(const LightSpot& spot, std::vector<std::uint32_t>& first,
               std::vector<LightSpan>& spans);

  private:
    TraceScene scene_;
    ShadowFinder finder_;
    VeilMixer mixer_;
    DaySweep sweep_;
    SpotItems items_;
};

}  // namespace sunfleck::rays
