#pragma once

#include "race.h"

namespace sunfleck::bench {

/// One tree dragged by 0.3 m on 21 June, every spot's minutes of the day brought up to date, by a
/// caster of rays: its structure built anew, every ray cast again.
[[nodiscard]] Chore drag_by_casting(const TestGarden& garden, const SunRays& day,
                                    const Contestant& contestant, const RaceOptions& options);

}  // namespace sunfleck::bench
