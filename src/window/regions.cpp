#include "window/regions.h"

#include <algorithm>

namespace sunfleck::window {

Regions regions_of(double width, double height, bool is_wide) {
    const double w = std::max(width, least_width);
    const double h = std::max(height, least_height);
    Regions regions;
    regions.is_compact = w < 1100.0 || h < 750.0;
    const bool is_small = h < 650.0;
    const double sky = !regions.is_compact ? 116.0 : is_small ? 96.0 : 100.0;
    const double path = !regions.is_compact ? 60.0 : is_small ? 48.0 : 52.0;
    double page = regions.is_compact ? 330.0 : w >= 1700.0 ? 440.0 : 368.0;
    if (is_wide) page = is_small ? w : regions.is_compact ? 660.0 : w >= 1700.0 ? 900.0 : 748.0;
    regions.sky = {{0.0, 0.0}, {w, sky}};
    regions.path = {{0.0, h - path}, {w, h}};
    regions.page = {{w - page, sky}, {w, h - path}};
    regions.ground = {{0.0, sky}, {w - page, h - path}};
    return regions;
}

SkyParts sky_parts(const Regions& regions) {
    // The clock stands over the narrow page, whatever the page's width.
    const double w = regions.sky.width();
    const double clock_left = w - (regions.is_compact ? 330.0 : 352.0);
    const double left = regions.is_compact ? 150.0 : 168.0;
    const double gap = regions.is_compact ? 30.0 : 40.0;
    const double room = clock_left - 30.0 - left;
    const double arch = room * (regions.is_compact ? 0.42 : 0.45);
    const double foot = regions.sky.high.y - 2.0;
    SkyParts parts;
    parts.name = {{16.0, 8.0}, {left - 10.0, foot}};
    parts.arch = {{left, 8.0}, {left + arch, foot - 4.0}};
    parts.strip = {{left + arch + gap, 6.0}, {clock_left - 30.0, foot - 2.0}};
    parts.clock = {{clock_left, 6.0}, {w - 16.0, foot}};
    return parts;
}

}  // namespace sunfleck::window
