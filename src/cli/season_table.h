#pragma once

#include "cli/terminal.h"
#include "sunfleck/base/problem.h"
#include "sunfleck/placement/harm_table.h"
#include "sunfleck/scene/scene.h"

#include <string>
#include <vector>

namespace sunfleck::cli {

/// The harm table of a period: follows the sun over its days, every fifth of a long one, and
/// weighs every pot at every spot from where the pots stand before it.
[[nodiscard]] Result<placement::HarmTable> season_table(const scene::Scene& scene,
                                                        const placement::HarmPeriod& period,
                                                        const placement::Standing& standing,
                                                        int threads);

/// The spot of every pot of the scene, as SceneFile::with_pots_at takes it.
[[nodiscard]] std::vector<std::string> spots_of_pots(const scene::Scene& scene,
                                                     const placement::HarmTable& table,
                                                     const placement::Standing& plan);

/// A scene without pots or spots has no plan.
[[nodiscard]] Result<void> require_pots_and_spots(const scene::Scene& scene);

}  // namespace sunfleck::cli
