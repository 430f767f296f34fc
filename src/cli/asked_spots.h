#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/scene/scene.h"
#include "sunfleck/scene/spots.h"

#include <cstddef>
#include <string>
#include <vector>

namespace sunfleck::cli {

/// Indices of the spots that the ids of spots, benches or stands name, in scene order, each once;
/// all when none is named. An unknown id is a usage problem that names the nearest; a scene
/// without spots has no answer.
[[nodiscard]] Result<std::vector<std::size_t>> spots_asked(const scene::Scene& scene,
                                                           const std::vector<scene::Spot>& spots,
                                                           const std::vector<std::string>& ids);

}  // namespace sunfleck::cli
