#pragma once

#include "sunfleck/rays/sun_table.h"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace sunfleck::rays {

/// Days handled together; arrays of days are filled up to a multiple of it.
inline constexpr int days_at_once = 16;

/// The sun's circle of each day, one array for each figure. A day's sun stands near
///   sin(declination) pole + cos(declination) (cos H meridian + sin H west),
/// H = start_hour_angle + sample * hour_angle_per_minute, and nowhere off by more than `stray`:
/// what refraction and the drift of the declination make.
struct DayFrames {
    std::size_t day_count = 0;
    std::vector<float> tan_declination;
    std::vector<float> stray_over_cos;  ///< over the cosine of the declination
    std::vector<float> start_hour_angle;
    std::vector<float> last_sample;
    /// Hour angle from each end of the day within which the sun stands so low (2 degrees) that
    /// refraction bends its path.
    std::vector<float> low_sun_turn;
    std::vector<std::int32_t> first_sample;
    /// The table's, in rows of four (the last is 0), and some more that are read but not used.
    std::vector<float> directions;
    Vec3 pole;
    Vec3 meridian;  ///< where the equator crosses the meridian, above the horizon
    /// Of each group of days: bounds of the sine of its samples' declination.
    std::vector<float> lowest_sine;
    std::vector<float> highest_sine;
};
inline constexpr float hour_angle_per_minute = 4.363323e-3F;

[[nodiscard]] DayFrames day_frames(const SunTable& sun);

}  // namespace sunfleck::rays
