#include "sunfleck/rays/light_disk.h"

#include "sunfleck/base/require.h"
#include "sunfleck/sun/sun_track.h"

#include <cmath>
#include <numbers>

namespace sunfleck::rays {
namespace {

void add_weighted(const LightMinutes& minutes, double weight, LightMinutes& sum) {
    sum.sun_up_min += weight * minutes.sun_up_min;
    sum.full_min += weight * minutes.full_min;
    sum.filtered_min += weight * minutes.filtered_min;
    sum.shade_min += weight * minutes.shade_min;
    sum.effective_min += weight * minutes.effective_min;
}

// The weighted mean of `minutes(sun, light)` over the paths.
template <typename Minutes>
LightMinutes mean_of_paths(const DiskPaths& paths, std::span<const LightSpans> light,
                           const Minutes& minutes) {
    SUNFLECK_REQUIRE(light.size() == paths.suns.size(), "one answer for each path");
    LightMinutes mean;
    for (std::size_t k = 0; k < light.size(); ++k) {
        add_weighted(minutes(paths.suns[k], light[k]), paths.weights[k], mean);
    }
    return mean;
}

}  // namespace

DiskPaths disk_paths(std::span<const Date> dates, const sun::Place& place,
                     const SunTableOptions& options, int path_count) {
    SUNFLECK_REQUIRE(path_count > 0 && path_count % 2 == 1, "an odd number of paths");
    const double radius = sun::sun_disk_radius(1.0).in_radians();
    DiskPaths paths;
    paths.middle = static_cast<std::size_t>(path_count / 2);
    for (int k = 1; k <= path_count; ++k) {
        const double angle = k * std::numbers::pi / (path_count + 1);
        const bool is_middle = 2 * k == path_count + 1;
        SunTableOptions own = options;
        const double off = is_middle ? 0.0 : radius * std::cos(angle);
        own.declination_shift = options.declination_shift + Angle::radians(off);
        paths.suns.emplace_back(dates, place, own);
        paths.weights.push_back(2.0 * std::sin(angle) * std::sin(angle) / (path_count + 1));
    }
    return paths;
}

std::vector<LightSpans> trace_paths(const geometry::Garden& garden, const DiskPaths& paths,
                                    const LightRequest& request) {
    std::vector<LightSpans> light;
    for (const SunTable& sun : paths.suns) {
        light.push_back(make_solving_tracer(garden, sun)->trace(request));
    }
    return light;
}

LightMinutes disk_minutes(const DiskPaths& paths, std::span<const LightSpans> light,
                          std::size_t spot, std::size_t day) {
    return mean_of_paths(paths, light, [&](const SunTable& sun, const LightSpans& own) {
        return day_minutes(sun, own, spot, day);
    });
}

LightMinutes disk_minutes_between(const DiskPaths& paths, std::span<const LightSpans> light,
                                  std::size_t spot, std::size_t day, UtcSeconds from,
                                  UtcSeconds to) {
    return mean_of_paths(paths, light, [&](const SunTable& sun, const LightSpans& own) {
        return minutes_between(sun, own, spot, day, from, to);
    });
}

}  // namespace sunfleck::rays
