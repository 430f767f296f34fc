#pragma once

#include "sunfleck/exposure/exposure.h"
#include "sunfleck/placement/harm_table.h"
#include "sunfleck/scene/scene.h"

namespace sunfleck::placement {

/// The harm table of a period: follows the sun over its days (every fifth of a long period) and
/// weighs every pot at every spot from where the pots stand before it. `thread_count` 0: all
/// cores; the table does not depend on it. Fails as exposure::compute_exposure() and
/// make_harm_table() do.
[[nodiscard]] Result<HarmTable> trace_harm_table(const scene::Scene& scene,
                                                 const HarmPeriod& period, const Standing& standing,
                                                 int thread_count,
                                                 const exposure::Progress& progress = {});

}  // namespace sunfleck::placement
