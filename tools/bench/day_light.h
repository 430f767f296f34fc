#pragma once

#include "garden_maker.h"
#include "sun_rays.h"

#include <cstddef>
#include <string>

namespace sunfleck::bench {

/// The product's effective minutes of a day against the true forms asked every 1/32 minute.
struct DayLight {
    std::string garden;
    std::size_t spots = 0;
    double mean_min = 0.0;  ///< of the truth
    double mean_off_min = 0.0;
    double most_off_min = 0.0;
    /// Spots off by more than a tick (1/32 min) for each end of a span and 0.02 min for the mean
    /// of its light.
    std::size_t wrong = 0;
};

[[nodiscard]] DayLight compare_day_light(const TestGarden& garden, const SunRays& day,
                                         std::size_t about_spots);

}  // namespace sunfleck::bench
