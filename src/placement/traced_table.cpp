#include "sunfleck/placement/traced_table.h"

#include "sunfleck/scene/spots.h"

namespace sunfleck::placement {

Result<HarmTable> trace_harm_table(const scene::Scene& scene, const HarmPeriod& period,
                                   const Standing& standing, int thread_count,
                                   const exposure::Progress& progress) {
    const auto spots = scene::spots_of(scene);
    const auto exposure = exposure::compute_exposure(
        scene, {.from = period.dates.from,
                .to = period.dates.to,
                .day_step = exposure::usual_day_step(period.dates.from, period.dates.to),
                .receivers = receivers_needed(scene, spots, period.dates),
                .thread_count = thread_count,
                .progress = progress});
    if (!exposure) return tl::unexpected(exposure.error());
    return make_harm_table(scene, spots, period, *exposure, standing);
}

}  // namespace sunfleck::placement
