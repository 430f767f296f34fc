#pragma once

#include "sunfleck/exposure/exposure.h"
#include "sunfleck/scene/scene.h"
#include "sunfleck/scene/spots.h"

#include <cstddef>

namespace sunfleck::cli {

/// The pot that stands on a spot now, or null.
[[nodiscard]] const scene::Pot* pot_at(const scene::Scene& scene, const scene::Spot& spot);

/// Where a spot's sun is measured: at the crown of the pot that stands there, else as on a bare
/// spot. `index` is the spot's.
[[nodiscard]] exposure::ReceiverRequest crown_receiver(const scene::Scene& scene,
                                                       const scene::Spot& spot, std::size_t index);

}  // namespace sunfleck::cli
