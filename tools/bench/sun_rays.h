#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/rays/sun_table.h"

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

namespace sunfleck::bench {

/// The rays to the sun that every contestant answers at a spot: those of the product's own table
/// at 55.7 N 12.5 E, with refraction, each whole minute from sunrise to sunset.
struct SunRays {
    std::shared_ptr<const rays::SunTable> table;
    int step_min = 1;  ///< every n-th sample of a day is asked
    std::vector<Vec3> to_sun;
    /// The same in single precision, with 16 more at the end so that whole packets can be read.
    std::vector<float> x, y, z;
    std::vector<int> samples;  ///< of each ray, within its day of the table
    /// to_sun of day i starts at day_starts[i]; one entry more than days.
    std::vector<std::size_t> day_starts{0};

    [[nodiscard]] std::size_t days() const { return day_starts.size() - 1; }
    [[nodiscard]] std::size_t size() const { return to_sun.size(); }
};

[[nodiscard]] SunRays sun_rays(std::span<const Date> dates, int step_min = 1);

/// The year's days from 1 January on, every `step`-th.
[[nodiscard]] std::vector<Date> days_of_year(int year, int step);

}  // namespace sunfleck::bench
