#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/scene/scene.h"

namespace sunfleck::scene {

/// The most spots that a garden may have; a nursery of 10,000 pots has room to spare.
inline constexpr int most_spots = 50000;

/// What a scene says that cannot be so, or is likely a slip, beyond what a key alone can show.
/// Each problem carries the pointer of the value it means (or, where the reader rearranges values,
/// of the list or thing around it); file, line and column are the reader's to fill in.
///
/// Errors: no answer would mean anything. Outlines that cross themselves or hold no area; tiers
/// within each other; a bench under the ground; spots off their bench; cloths below the ground or
/// twisted; a crown's base above its top, leaves that fall before they open; an id used twice; a
/// pot at a spot that does not exist (naming the nearest), two pots at one spot, pins that clash
/// or do not fit; seasons that share a name or a day; a time zone more than 3.5 h from the sun.
///
/// Warnings: unlikely, but it can be computed. A zone 2 h from the sun, or one of the other
/// hemisphere (latitude and longitude swapped, a sign forgotten); a declination with the wrong
/// sign; seasons out of order; benches, walls and trunks within each other; spots no sun can
/// reach; pots that overlap, pass the bench's end, are too tall for the tier above or too heavy to
/// lift; loads above a tier's limit; unknown species; sizes that look like another unit.
[[nodiscard]] Problems check_meaning(const Scene& scene);

}  // namespace sunfleck::scene
