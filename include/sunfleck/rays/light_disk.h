#pragma once

#include "sunfleck/rays/light_sums.h"
#include "sunfleck/rays/light_tracer.h"

#include <cstddef>
#include <span>
#include <vector>

/// The sun as a disk instead of its middle alone.
namespace sunfleck::rays {

/// Parallel paths over the disk. A share of the disk's area, integrated over time, is the mean of
/// what points of the disk get, each on its own path; along the path they only come earlier or
/// later, so what counts is how far off the middle's path they go. The disk's chords weigh those
/// distances as sqrt(1 - x^2), for which Gauss-Chebyshev's rule of the second kind is made:
/// x = cos(k pi / (n + 1)), weight 2 sin^2(k pi / (n + 1)) / (n + 1) (Abramowitz & Stegun,
/// 25.4.40). One path is the middle's; a straight edge is exact with any number.
struct DiskPaths {
    std::vector<SunTable> suns;
    std::vector<double> weights;  ///< of each; their sum is 1
    std::size_t middle = 0;       ///< which of them is the middle's
};

/// `path_count` is odd, so that the middle is among them: 1, 3, 5 or more. Disk of the mean radius,
/// 0.2665 degrees.
[[nodiscard]] DiskPaths disk_paths(std::span<const Date> dates, const sun::Place& place,
                                   const SunTableOptions& options = {}, int path_count = 3);

/// Traces every path by the fast engine.
[[nodiscard]] std::vector<LightSpans> trace_paths(const geometry::Garden& garden,
                                                  const DiskPaths& paths,
                                                  const LightRequest& request);

/// Minutes of the whole disk on a day: time integrals of the shares of its area, as
/// exposure::SunMinutes has them. `light` holds one answer for each path.
///
/// Accuracy of three paths against exposure::SpotSun, full, filtered and effective minutes of a
/// day at 100 spots of random gardens of boards, posts, nets and crowns: mean 0.023 min, worst
/// 0.59 min; of one path 0.085 and 5.4 min (disk_minutes_test).
[[nodiscard]] LightMinutes disk_minutes(const DiskPaths& paths, std::span<const LightSpans> light,
                                        std::size_t spot, std::size_t day);
/// The same for a part of the day; see minutes_between. Within the time the disk takes to pass its
/// ends (2 min), light is counted by the middle of each chord.
[[nodiscard]] LightMinutes disk_minutes_between(const DiskPaths& paths,
                                                std::span<const LightSpans> light, std::size_t spot,
                                                std::size_t day, UtcSeconds from, UtcSeconds to);

}  // namespace sunfleck::rays
