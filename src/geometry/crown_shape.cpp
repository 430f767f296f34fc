// The ray is taken to the crown's own frame, where each form is simple: x and y in half widths,
// z in heights from the lowest level. The distance along the ray is the same in both frames.
//
//   ellipsoid  x^2 + y^2 + (2 z - 1)^2 <= 1
//   dome       x^2 + y^2 + z^2 <= 1         0 <= z
//   cone       x^2 + y^2 <= (1 - z)^2       0 <= z <= 1
//   column     x^2 + y^2 <= 1               0 <= z <= 1
#include "sunfleck/geometry/passage.h"
#include "sunfleck/geometry/ray_fan.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace sunfleck::geometry {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// A stretch of the ray; empty when to < from.
struct Stretch {
    double from = 0.0;
    double to = 0.0;
};

Stretch common(Stretch a, Stretch b) {
    return {std::max(a.from, b.from), std::min(a.to, b.to)};
}

constexpr Stretch nothing{0.0, -1.0};

/// Where low <= place + t * speed <= high.
Stretch between(double place, double speed, double low, double high) {
    if (!(std::abs(speed) > 0.0)) {
        return place >= low && place <= high ? Stretch{-infinity, infinity} : nothing;
    }
    const double one = (low - place) / speed;
    const double other = (high - place) / speed;
    return {std::min(one, other), std::max(one, other)};
}

/// a t^2 + 2 b t + c <= 0.
struct Quadratic {
    double a = 0.0;
    double b = 0.0;
    double c = 0.0;
};

/// The two roots, the smaller first, without the cancellation of the school formula.
Stretch roots(Quadratic f) {
    const double root = std::sqrt(std::max(0.0, f.b * f.b - f.a * f.c));
    const double q = -(f.b + std::copysign(root, f.b));
    const double one = q / f.a;
    const double other = std::abs(q) > 0.0 ? f.c / q : 0.0;
    return {std::min(one, other), std::max(one, other)};
}

/// Where an upward parabola is not positive; a ray along the axis (a = 0) is in or out for ever.
Stretch inside_upward(Quadratic f) {
    if (!(f.a > 0.0)) return f.c <= 0.0 ? Stretch{-infinity, infinity} : nothing;
    if (f.b * f.b < f.a * f.c) return nothing;
    return roots(f);
}

/// Where, within `slab`, the ray is in the cone's lower nappe. As that is convex there is one
/// such stretch.
Stretch inside_cone(Quadratic f, Stretch slab) {
    if (f.a > 0.0) return common(inside_upward(f), slab);
    if (!(f.a < 0.0)) {
        // Parallel to the cone's side: 2 b t + c <= 0.
        if (!(std::abs(f.b) > 0.0)) return f.c <= 0.0 ? slab : nothing;
        const double edge = -0.5 * f.c / f.b;
        return common(slab, f.b > 0.0 ? Stretch{-infinity, edge} : Stretch{edge, infinity});
    }
    // Steeper than the side: inside both nappes, outside between the roots. The slab ends at the
    // apex's level, so that only one of the two parts can hold more than a point of it.
    const Stretch gap = roots(f);
    const Stretch before = common(slab, {-infinity, gap.from});
    const Stretch after = common(slab, {gap.to, infinity});
    return before.to - before.from > after.to - after.from ? before : after;
}

/// Where the ray from `p` along `d`, both in the crown's frame, is inside.
Stretch inside(scene::CrownForm form, Vec3 p, Vec3 d) {
    const Quadratic round{d.x * d.x + d.y * d.y, p.x * d.x + p.y * d.y, p.x * p.x + p.y * p.y};
    const Stretch slab = between(p.z, d.z, 0.0, 1.0);
    switch (form) {
        case scene::CrownForm::ellipsoid: {
            const double z = 2.0 * p.z - 1.0;
            const double dz = 2.0 * d.z;
            return inside_upward({round.a + dz * dz, round.b + z * dz, round.c + z * z - 1.0});
        }
        case scene::CrownForm::dome:
            return common(slab, inside_upward({round.a + d.z * d.z, round.b + p.z * d.z,
                                               round.c + p.z * p.z - 1.0}));
        case scene::CrownForm::cone: {
            const double z = 1.0 - p.z;
            return inside_cone({round.a - d.z * d.z, round.b + z * d.z, round.c - z * z}, slab);
        }
        case scene::CrownForm::column:
            break;
    }
    return common(slab, inside_upward({round.a, round.b, round.c - 1.0}));
}

/// Vectors as the crown's frame has them.
class CrownFrame {
  public:
    explicit CrownFrame(const Crown& crown)
        : crown_(&crown), side_{-crown.axis.y, crown.axis.x, 0.0} {}
    [[nodiscard]] Vec3 of(Vec3 v) const {
        return {dot(v, crown_->axis) / crown_->half_width_m, dot(v, side_) / crown_->half_across_m,
                v.z / crown_->height_m};
    }

  private:
    const Crown* crown_;
    Vec3 side_;
};

double path_inside(scene::CrownForm form, Vec3 p, Vec3 d) {
    const Stretch stretch = inside(form, p, d);
    const double path = stretch.to - std::max(0.0, stretch.from);
    return path > 0.0 && std::isfinite(path) ? path : 0.0;
}

/// All rays of a fan through an ellipsoid, without a branch.
void ellipsoid_paths_m(const CrownFrame& frame, Vec3 p, const RayFan& fan,
                       std::span<double> paths_m) {
    const auto to_ball = [&](Vec3 v) {
        const Vec3 d = frame.of(v);
        return Vec3{d.x, d.y, 2.0 * d.z};
    };
    const Vec3 q{p.x, p.y, 2.0 * p.z - 1.0};
    const Vec3 centre = to_ball(fan.centre);
    const Vec3 side = to_ball(fan.side);
    const Vec3 over = to_ball(fan.over);
    const double c = dot(q, q) - 1.0;
    for (std::size_t i = 0; i < fan.size(); ++i) {
        const Vec3 along = fan.centre + fan.x[i] * fan.side + fan.y[i] * fan.over;
        const Vec3 d = centre + fan.x[i] * side + fan.y[i] * over;
        const double a = dot(d, d);
        const double b = dot(q, d);
        const double root = std::sqrt(std::max(0.0, b * b - a * c));
        const double from = std::max(0.0, -b - root);
        const double to = std::max(from, root - b);
        paths_m[i] = (to - from) / a * length(along);
    }
}

}  // namespace

double crown_path_m(const Crown& crown, Vec3 origin, Vec3 direction) {
    const CrownFrame frame(crown);
    return path_inside(crown.form, frame.of(origin - crown.base_centre), frame.of(direction));
}

void crown_paths_m(const Crown& crown, const RayFan& fan, std::span<double> paths_m) {
    const CrownFrame frame(crown);
    const Vec3 p = frame.of(fan.origin - crown.base_centre);
    if (crown.form == scene::CrownForm::ellipsoid) {
        ellipsoid_paths_m(frame, p, fan, paths_m);
        return;
    }
    const Vec3 centre = frame.of(fan.centre);
    const Vec3 side = frame.of(fan.side);
    const Vec3 over = frame.of(fan.over);
    for (std::size_t i = 0; i < fan.size(); ++i) {
        const Vec3 along = fan.centre + fan.x[i] * fan.side + fan.y[i] * fan.over;
        const Vec3 d = centre + fan.x[i] * side + fan.y[i] * over;
        paths_m[i] = path_inside(crown.form, p, d) * length(along);
    }
}

}  // namespace sunfleck::geometry
