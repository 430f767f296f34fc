#include "exposure/disk.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunfleck::exposure {
namespace {

// Towards the points of the disk: centre + x side + y over, for x, y of a point of the unit disk.
geometry::RayFan fan_of(const DiskView& view, const DiskPoints& points) {
    const Vec3 centre = view.centre;
    const Vec3 up = std::abs(centre.z) < 0.999 ? Vec3{0.0, 0.0, 1.0} : Vec3{1.0, 0.0, 0.0};
    const double reach = tan(view.radius);
    const Vec3 side = normalised(cross(up, centre));
    return {.origin = view.origin,
            .centre = centre,
            .side = reach * side,
            .over = reach * cross(centre, side),
            .x = points.x(),
            .y = points.y()};
}

}  // namespace

DiskPoints::DiskPoints(std::size_t pairs) {
    // Half the golden angle: the spiral and its opposite are two arms of one even pattern.
    constexpr double turn = std::numbers::pi / (std::numbers::phi * std::numbers::phi);
    for (std::size_t i = 0; i < pairs; ++i) {
        const double n = static_cast<double>(i);
        const double radius = std::sqrt((n + 0.5) / static_cast<double>(pairs));
        const double x = radius * std::cos(turn * n);
        const double y = radius * std::sin(turn * n);
        x_.insert(x_.end(), {x, -x});
        y_.insert(y_.end(), {y, -y});
    }
}

DiskShares DiskSum::shares(const DiskView& view, const DiskPoints& points) {
    const std::size_t count = points.size();
    light_.assign(count, 1.0);
    is_met_.assign(count, 0.0);
    scratch_.resize(2 * count);
    const geometry::RayFan fan = fan_of(view, points);
    for (const Vec3& edge : view.sky_edges) hide_beyond(edge, fan);
    if (view.horizon != nullptr) hide_below_horizon(*view.horizon, fan);
    const rays::FanLight light{.kept = light_, .is_met = is_met_, .scratch = scratch_};
    for (const bool asks_cones : {true, false}) {  // the cheap ones first: they may hide all
        for (const rays::Sight* sight : view.sights) {
            if (sight->is_cone() != asks_cones) continue;
            sight->dim(view.optics[sight->part().piece], fan, light);
        }
    }
    DiskShares sum;
    for (std::size_t i = 0; i < count; ++i) {
        const double lit = light_[i] > 0.0 ? 1.0 : 0.0;
        sum.full += lit * (1.0 - is_met_[i]);
        sum.filtered += lit * is_met_[i];
        sum.effective += light_[i];
    }
    const double weight = 1.0 / static_cast<double>(count);
    return {sum.full * weight, sum.filtered * weight, sum.effective * weight};
}

void DiskSum::hide_beyond(Vec3 sky_edge, const geometry::RayFan& fan) {
    const double middle = dot(sky_edge, fan.centre);
    const double per_x = dot(sky_edge, fan.side);
    const double per_y = dot(sky_edge, fan.over);
    for (std::size_t i = 0; i < fan.size(); ++i) {
        if (middle + per_x * fan.x[i] + per_y * fan.y[i] <= 0.0) light_[i] = 0.0;
    }
}

void DiskSum::hide_below_horizon(const geometry::Horizon& horizon, const geometry::RayFan& fan) {
    for (std::size_t i = 0; i < fan.size(); ++i) {
        if (!geometry::is_over_horizon(horizon, fan.direction(i))) light_[i] = 0.0;
    }
}

}  // namespace sunfleck::exposure
