// Everything happens in the panel's frame: s along the laths from their start, c from lath to
// lath from the first one's axis, h square to the panel from the axes' plane.
#include "geometry/lath_passage.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::geometry {
namespace {

constexpr double least_distance_m = 1e-6;

struct PanelPoint {
    double s = 0.0;
    double c = 0.0;
    double h = 0.0;
};

PanelPoint in_panel(const LathBody& laths, Vec3 v) {
    return {dot(v, laths.along), dot(v, laths.across), dot(v, laths.up)};
}

/// A stretch of the ray in front of the origin.
struct Stretch {
    double from = 0.0;
    double to = 1e300;

    /// Keeps the part where low <= place + t * speed <= high.
    void keep(double place, double speed, double low, double high) {
        if (std::abs(speed) > 0.0) {
            const double one = (low - place) / speed;
            const double other = (high - place) / speed;
            from = std::max(from, std::min(one, other));
            to = std::min(to, std::max(one, other));
        } else if (place < low || place > high) {
            to = -1.0;
        }
    }
    [[nodiscard]] bool is_empty() const { return !(to > least_distance_m && to >= from); }
};

/// Does the ray, within `band`, meet the lath whose axis is at `axis_c`?
bool meets_lath(const LathBody& laths, const PanelPoint& at, const PanelPoint& d, double axis_c,
                double cos_tilt, double sin_tilt, Stretch band) {
    const double c = at.c - axis_c;
    const double half_width = 0.5 * laths.slat_width_m;
    const double half_thickness = 0.5 * laths.thickness_m;
    band.keep(c * cos_tilt + at.h * sin_tilt, d.c * cos_tilt + d.h * sin_tilt, -half_width,
              half_width);
    band.keep(at.h * cos_tilt - c * sin_tilt, d.h * cos_tilt - d.c * sin_tilt, -half_thickness,
              half_thickness);
    return !band.is_empty();
}

/// Does the ray meet any lath? Only those over or under its way through the panel are tried.
bool meets_any_lath(const LathBody& laths, const PanelPoint& at, const PanelPoint& d,
                    const LathHalves& half) {
    const double last_c = (laths.count - 1) * laths.pitch_m;
    Stretch band;
    band.keep(at.h, d.h, -half.up_m, half.up_m);
    band.keep(at.s, d.s, 0.0, laths.length_m);
    band.keep(at.c, d.c, -half.across_m, last_c + half.across_m);
    if (band.is_empty()) return false;
    const double c_from = at.c + band.from * d.c;
    const double c_to = at.c + band.to * d.c;
    const double first = (std::min(c_from, c_to) - half.across_m) / laths.pitch_m;
    const double last = (std::max(c_from, c_to) + half.across_m) / laths.pitch_m;
    const int first_lath = std::max(0, static_cast<int>(std::ceil(first - 1e-6)));
    const int last_lath = std::min(laths.count - 1, static_cast<int>(std::floor(last + 1e-6)));
    const double cos_tilt = cos(laths.slat_tilt);
    const double sin_tilt = sin(laths.slat_tilt);
    for (int i = first_lath; i <= last_lath; ++i) {
        if (meets_lath(laths, at, d, i * laths.pitch_m, cos_tilt, sin_tilt, band)) return true;
    }
    return false;
}

/// Mean of the panel where the ray crosses its middle plane at distance `t`; 1 beside it. Each
/// lath counts as the middle of its pitch, so that the panel's whole shade is kept.
double averaged(const LathBody& laths, const PanelPoint& at, const PanelPoint& d, double t) {
    const double s = at.s + t * d.s;
    const double c = at.c + t * d.c;
    const double half_pitch = 0.5 * laths.pitch_m;
    const bool is_within = s >= 0.0 && s <= laths.length_m && c >= -half_pitch &&
                           c <= (laths.count - 1) * laths.pitch_m + half_pitch;
    return is_within ? mean_lath_transmittance(laths, d.c / d.h) : 1.0;
}

LathBlend blend_of(const LathBody& laths, const PanelPoint& at, const PanelPoint& d) {
    // Where the ray crosses the axes' plane; along that plane it stays among the laths.
    const double crossing_m = std::abs(d.h) > 0.0 ? -at.h / d.h : 0.0;
    const bool is_crossed = crossing_m > 0.0 && std::isfinite(crossing_m);
    const double sharp = is_crossed ? lath_sharpness(laths.pitch_m, crossing_m) : 1.0;
    return {.sharp = sharp, .mean = sharp < 1.0 ? averaged(laths, at, d, crossing_m) : 1.0};
}

}  // namespace

double lath_sharpness(double pitch_m, double distance_m) {
    constexpr double sharp_rad = Angle::degrees(1.0).in_radians();
    constexpr double blurred_rad = Angle::degrees(0.5).in_radians();
    return std::clamp((pitch_m - blurred_rad * distance_m) /
                          ((sharp_rad - blurred_rad) * std::max(distance_m, 1e-9)),
                      0.0, 1.0);
}

LathHalves lath_halves(const LathBody& laths) {
    const double c = std::abs(cos(laths.slat_tilt));
    const double s = std::abs(sin(laths.slat_tilt));
    return {0.5 * (laths.slat_width_m * c + laths.thickness_m * s),
            0.5 * (laths.slat_width_m * s + laths.thickness_m * c)};
}

double mean_lath_transmittance(const LathBody& laths, double run_per_rise) {
    const double c = cos(laths.slat_tilt);
    const double s = sin(laths.slat_tilt);
    const double shadow = laths.slat_width_m * std::abs(c - run_per_rise * s) +
                          laths.thickness_m * std::abs(s + run_per_rise * c);
    const double open = 1.0 - shadow / laths.pitch_m;
    return open > 0.0 ? open : 0.0;
}

LathBlend lath_blend(const LathBody& laths, Vec3 origin, Vec3 direction) {
    const PanelPoint at = in_panel(laths, origin - laths.corner);
    const PanelPoint d = in_panel(laths, direction);
    return blend_of(laths, at, d);
}

Passage pass_laths(const LathBody& laths, Vec3 origin, Vec3 direction) {
    const PanelPoint at = in_panel(laths, origin - laths.corner);
    const PanelPoint d = in_panel(laths, direction);
    const LathBlend blend = blend_of(laths, at, d);
    const LathHalves half = lath_halves(laths);
    const bool is_blocked = blend.sharp > 0.0 && meets_any_lath(laths, at, d, half);
    const double transmittance = blend.transmittance(is_blocked);
    return {transmittance < 1.0, transmittance};
}

}  // namespace sunfleck::geometry
