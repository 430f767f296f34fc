#include "exposure/disk.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunfleck::exposure {

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

// Directions of the disk: centre + x side + y over, for x, y of a point of the unit disk. Not of
// unit length (by 1e-5), which signs of products with planes do not mind.
struct DiskSum::Frame {
    Vec3 centre;
    Vec3 side;
    Vec3 over;

    Frame(Vec3 middle, Angle radius) : centre(middle) {
        const Vec3 up = std::abs(middle.z) < 0.999 ? Vec3{0.0, 0.0, 1.0} : Vec3{1.0, 0.0, 0.0};
        const double reach = tan(radius);
        const Vec3 unit_side = normalised(cross(up, middle));
        side = reach * unit_side;
        over = reach * cross(middle, unit_side);
    }
    [[nodiscard]] Vec3 at(double x, double y) const {
        return normalised(centre + x * side + y * over);
    }
};

DiskShares DiskSum::shares(const DiskView& view, const DiskPoints& points) {
    const std::size_t count = points.size();
    light_.assign(count, 1.0);
    is_met_.assign(count, 0.0);
    outside_.resize(count);
    const Frame frame(view.centre, view.radius);
    for (const Vec3& edge : view.sky_edges) hide_half_sky(frame, edge, points);
    if (view.horizon != nullptr) hide_below_horizon(frame, *view.horizon, points);
    for (const rays::Sight* sight : view.sights) {
        if (sight->is_cone()) cross_cone(frame, *sight, points);
    }
    for (const rays::Sight* sight : view.sights) {
        if (!sight->is_cone()) {
            cross_body(frame, *sight, view.optics[sight->part().piece], points);
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

void DiskSum::hide_half_sky(const Frame& frame, Vec3 outward, const DiskPoints& points) {
    const double middle = dot(outward, frame.centre);
    const double per_x = dot(outward, frame.side);
    const double per_y = dot(outward, frame.over);
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (middle + per_x * points.x()[i] + per_y * points.y()[i] <= 0.0) light_[i] = 0.0;
    }
}

void DiskSum::hide_below_horizon(const Frame& frame, const geometry::Horizon& horizon,
                                 const DiskPoints& points) {
    for (std::size_t i = 0; i < points.size(); ++i) {
        const bool is_seen =
            geometry::is_over_horizon(horizon, frame.at(points.x()[i], points.y()[i]));
        if (!is_seen) light_[i] = 0.0;
    }
}

void DiskSum::cross_cone(const Frame& frame, const rays::Sight& sight, const DiskPoints& points) {
    const std::size_t count = points.size();
    std::fill(outside_.begin(), outside_.end(), -1.0);
    for (const Vec3& normal : sight.planes()) {
        const double middle = dot(normal, frame.centre);
        const double per_x = dot(normal, frame.side);
        const double per_y = dot(normal, frame.over);
        const double* x = points.x().data();
        const double* y = points.y().data();
        double* outside = outside_.data();
        for (std::size_t i = 0; i < count; ++i) {
            const double here = middle + per_x * x[i] + per_y * y[i];
            outside[i] = here > outside[i] ? here : outside[i];
        }
    }
    const double transmittance = sight.transmittance();
    for (std::size_t i = 0; i < count; ++i) {
        const bool is_inside = outside_[i] <= 0.0;
        light_[i] *= is_inside ? transmittance : 1.0;
        is_met_[i] = is_inside ? 1.0 : is_met_[i];
    }
}

void DiskSum::cross_body(const Frame& frame, const rays::Sight& sight,
                         const geometry::PieceOptics& optics, const DiskPoints& points) {
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (light_[i] <= 0.0) continue;
        const geometry::Passage passage =
            sight.pass(optics, frame.at(points.x()[i], points.y()[i]));
        if (!passage.is_met) continue;
        light_[i] *= passage.transmittance;
        is_met_[i] = 1.0;
    }
}

}  // namespace sunfleck::exposure
