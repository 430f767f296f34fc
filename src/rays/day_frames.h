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
    /// How fast the stray changes at most, radians for each radian of the Earth's turn, over the
    /// cosine of the declination. Refraction makes that large near the horizon alone: between
    /// `steady_from` and `steady_to` (hour angles) it is below steady_stray_rate.
    std::vector<float> stray_rate_over_cos;
    std::vector<float> steady_from;
    std::vector<float> steady_to;
    std::vector<float> start_hour_angle;
    std::vector<float> last_sample;
    std::vector<std::int32_t> first_sample;
    std::vector<float> directions;  ///< the table's, and some more that are read but not used
    Vec3 pole;
    Vec3 meridian;  ///< where the equator crosses the meridian, above the horizon
    /// Of each group of days: bounds of the sine of its samples' declination.
    std::vector<float> lowest_sine;
    std::vector<float> highest_sine;
};
/// A sample's floats in `directions`.
inline constexpr int row_floats = 3;
inline constexpr float steady_stray_rate = 0.03F;
inline constexpr float hour_angle_per_minute = 4.363323e-3F;

[[nodiscard]] DayFrames day_frames(const SunTable& sun);

}  // namespace sunfleck::rays
