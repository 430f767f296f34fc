#include "rays/lath_sight.h"

#include "rays/fan_plane.h"
#include "rays/outline.h"
#include "sunfleck/geometry/passage.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunfleck::rays {
namespace {

// A mean that may be less is not taken as smooth: where laths overlap it is cut off at none.
constexpr double least_smooth_mean = 0.02;

bool misses(std::span<const Vec3> planes, Vec3 axis, double sine) {
    return std::any_of(planes.begin(), planes.end(),
                       [&](const Vec3& normal) { return dot(normal, axis) > sine; });
}

bool fills(std::span<const Vec3> planes, Vec3 axis, double sine) {
    return std::none_of(planes.begin(), planes.end(),
                        [&](const Vec3& normal) { return dot(normal, axis) > -sine; });
}

}  // namespace

LathSight::LathSight(const geometry::LathBody& laths, Vec3 origin)
    : laths_(&laths), origin_(origin) {
    add_lath_cones();
    add_panel_planes();
}

// All laths are one box moved on: it stays where it is and the origin moves back instead.
void LathSight::add_lath_cones() {
    const geometry::LathBody& laths = *laths_;
    const Vec3 wide = cos(laths.slat_tilt) * laths.across + sin(laths.slat_tilt) * laths.up;
    const Vec3 thick = cos(laths.slat_tilt) * laths.up - sin(laths.slat_tilt) * laths.across;
    const double half_width = 0.5 * laths.slat_width_m;
    const double half_thickness = 0.5 * laths.thickness_m;
    const Outline outline = outline_of_box({0.0, -half_width, -half_thickness},
                                           {laths.length_m, half_width, half_thickness});
    for (int i = 0; i < laths.count; ++i) {
        const Vec3 at = origin_ - laths.corner - (i * laths.pitch_m) * laths.across;
        const ConeInView view =
            cone_in_view(outline, {dot(at, laths.along), dot(at, wide), dot(at, thick)});
        if (!view.is_within && view.planes.size() < 3) is_outlined_ = false;
        for (const Vec3& n : view.planes) {
            planes_.push_back(n.x * laths.along + n.y * wide + n.z * thick);
        }
        ends_.push_back(static_cast<std::uint32_t>(planes_.size()));
    }
}

void LathSight::add_panel_planes() {
    const geometry::LathBody& laths = *laths_;
    const double half_pitch = 0.5 * laths.pitch_m;
    const double last = (laths.count - 1) * laths.pitch_m;
    const auto point = [&](double s, double c) {
        return laths.corner + s * laths.along + c * laths.across;
    };
    const Vec3 corners[] = {point(0.0, -half_pitch), point(laths.length_m, -half_pitch),
                            point(laths.length_m, last + half_pitch),
                            point(0.0, last + half_pitch)};
    const Vec3 middle = point(0.5 * laths.length_m, 0.5 * last);
    for (std::size_t i = 0; i < 4; ++i) {
        add_plane(origin_, corners[i], corners[(i + 1) % 4], middle, panel_);
    }
}

std::span<const Vec3> LathSight::cone(std::size_t lath) const {
    const std::size_t first = lath == 0 ? 0 : ends_[lath - 1];
    return std::span(planes_).subspan(first, ends_[lath] - first);
}

LathSight::SharpRange LathSight::sharpness_around(Vec3 axis, double sine) const {
    const double height = dot(origin_ - laths_->corner, laths_->up);
    const double away_m = std::abs(height);
    const double nearing = height > 0.0 ? -dot(axis, laths_->up) : dot(axis, laths_->up);
    if (nearing < -sine) return {.least = 1.0, .most = 1.0};  // no ray crosses the axes' plane
    if (nearing <= sine) return {};
    return {
        .least = geometry::lath_sharpness(laths_->pitch_m, away_m / (nearing - sine)),
        .most = geometry::lath_sharpness(laths_->pitch_m, away_m / std::min(1.0, nearing + sine))};
}

Cover LathSight::cover(const Beam& beam) const {
    const double sine = sin(beam.half_angle);
    const SharpRange sharp = sharpness_around(beam.axis, sine);
    if (sharp.least >= 1.0) return cover_by_laths(beam, sine);
    if (sharp.most <= 0.0) return cover_by_mean(beam, sine);
    return Cover::mixed;
}

Cover LathSight::cover_by_laths(const Beam& beam, double sine) const {
    Cover cover = Cover::none;
    for (std::size_t i = 0; i < ends_.size(); ++i) {
        const std::span<const Vec3> planes = cone(i);
        if (misses(planes, beam.axis, sine)) continue;
        if (fills(planes, beam.axis, sine)) return Cover::dark;
        cover = Cover::mixed;
    }
    return cover;
}

// The mean hangs on the slope across the laths alone, and their shadow is convex in it: the mean
// is least at an end of the beam's slopes.
Cover LathSight::cover_by_mean(const Beam& beam, double sine) const {
    if (panel_.size() < 4 || !fills(panel_, beam.axis, sine)) return Cover::mixed;
    const double across = dot(beam.axis, laths_->across);
    const double up = dot(beam.axis, laths_->up);
    const double in_profile = std::hypot(across, up);
    if (in_profile <= sine) return Cover::mixed;
    const double spread = std::asin(sine / in_profile);
    const double profile = std::atan(across / up);
    if (std::abs(profile) + spread >= 0.5 * std::numbers::pi - 1e-3) return Cover::mixed;
    const double least =
        std::min(geometry::mean_lath_transmittance(*laths_, std::tan(profile - spread)),
                 geometry::mean_lath_transmittance(*laths_, std::tan(profile + spread)));
    return least >= least_smooth_mean ? Cover::whole : Cover::mixed;
}

void LathSight::dim(const geometry::RayFan& fan, FanLight light) const {
    const double sine = std::max(length(fan.side), length(fan.over));
    const SharpRange sharp = sharpness_around(fan.centre, sine);
    // How far each ray lies outside of the lath that it is nearest to.
    const std::size_t count = fan.size();
    const std::span<double> nearest = light.scratch.first(count);
    const std::span<double> outside = light.scratch.subspan(count, count);
    std::fill(nearest.begin(), nearest.end(), 1.0);
    for (std::size_t lath = 0; lath < ends_.size() && sharp.most > 0.0; ++lath) {
        const std::span<const Vec3> planes = cone(lath);
        if (misses(planes, fan.centre, sine)) continue;
        std::fill(outside.begin(), outside.end(), -1.0);
        for (const Vec3& normal : planes) raise_to_plane(fan, normal, outside);
        for (std::size_t i = 0; i < count; ++i) nearest[i] = std::min(nearest[i], outside[i]);
    }
    const bool is_all_sharp = sharp.least >= 1.0;
    for (std::size_t i = 0; i < count; ++i) {
        if (!(light.kept[i] > 0.0)) continue;
        const bool is_blocked = nearest[i] <= 0.0;
        const geometry::LathBlend blend =
            is_all_sharp ? geometry::LathBlend{}
                         : geometry::lath_blend(*laths_, origin_, fan.direction(i));
        const double transmittance = blend.transmittance(is_blocked);
        light.kept[i] *= transmittance;
        light.is_met[i] = transmittance < 1.0 ? 1.0 : light.is_met[i];
    }
}

}  // namespace sunfleck::rays
