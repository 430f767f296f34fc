#pragma once

#include "rays/cone_view.h"
#include "sunfleck/rays/sun_table.h"

#include <array>

namespace sunfleck::rays {

/// Samples [from, to] of a day; none when to < from.
struct SampleRange {
    int from = 0;
    int to = -1;
};

/// The samples of a day between which the sun may come before the ball: two stretches at most,
/// ascending, that share no sample.
[[nodiscard]] std::array<SampleRange, 2> samples_before(const Ball& ball, Vec3 spot,
                                                        const SunTable& sun, std::size_t day);

}  // namespace sunfleck::rays
