#pragma once

#include "race.h"

#include <string>

namespace sunfleck::bench {

/// One tree dragged to and fro by 0.3 m on 21 June, every spot's minutes of the day brought up to
/// date: the product's layers, which keep what each object does.
[[nodiscard]] Chore drag_layers(const TestGarden& garden, const SunRays& day,
                                const RaceOptions& options, const std::string& simd_target);

/// The same by a caster of rays: its structure built anew, every ray cast again.
[[nodiscard]] Chore drag_by_casting(const TestGarden& garden, const SunRays& day,
                                    const Contestant& contestant, const RaceOptions& options);

}  // namespace sunfleck::bench
