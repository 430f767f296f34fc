#include "sunfleck/geometry/shadow_outline.h"

#include "geometry/flat_outline.h"
#include "geometry/lath_passage.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace sunfleck::geometry {
namespace {

constexpr int crown_corners = 128;

/// Throws points along the light onto the level plane.
struct Throw {
    Vec2 run_per_rise;  ///< from the plane towards the sun
    double level_z_m = 0.0;
    [[nodiscard]] Vec2 operator()(Vec3 p) const {
        return Vec2{p.x, p.y} - (p.z - level_z_m) * run_per_rise;
    }
};

/// The points of a convex body, given by its edges' ends, that its part over the plane throws:
/// corners above, and where edges meet the plane.
class ThrownPoints {
  public:
    explicit ThrownPoints(const Throw& thrown) : throw_(thrown) {}
    void add_edge(Vec3 a, Vec3 b) {
        const double a_over = a.z - throw_.level_z_m;
        const double b_over = b.z - throw_.level_z_m;
        if (a_over >= 0.0) points_.push_back(throw_(a));
        if (b_over >= 0.0) points_.push_back(throw_(b));
        if ((a_over < 0.0 && b_over > 0.0) || (a_over > 0.0 && b_over < 0.0)) {
            points_.push_back(throw_(a + (a_over / (a_over - b_over)) * (b - a)));
        }
    }
    void add(const Triangle& t) {
        add_edge(t.a, t.b);
        add_edge(t.b, t.c);
        add_edge(t.c, t.a);
    }
    [[nodiscard]] Outline hull() { return convex_hull(std::move(points_)); }

  private:
    Throw throw_;
    std::vector<Vec2> points_;
};

using Outlines = std::vector<Outline>;

void add_if_any(Outlines& outlines, Outline outline) {
    if (!outline.empty()) outlines.push_back(std::move(outline));
}

Outlines thrown_as_one(const std::vector<Triangle>& facets, const Throw& thrown) {
    ThrownPoints points(thrown);
    for (const Triangle& t : facets) points.add(t);
    Outlines outlines;
    add_if_any(outlines, points.hull());
    return outlines;
}

Outlines thrown_apart(const std::vector<Triangle>& facets, const Throw& thrown) {
    Outlines outlines;
    for (const Triangle& t : facets) {
        ThrownPoints points(thrown);
        points.add(t);
        add_if_any(outlines, points.hull());
    }
    return outlines;
}

/// Crowns are stacks of level ellipses; this is the size of the one at the share v of the height.
double scale_at(scene::CrownForm form, double v) {
    switch (form) {
        case scene::CrownForm::ellipsoid:
            return std::sqrt(std::max(0.0, 1.0 - (2.0 * v - 1.0) * (2.0 * v - 1.0)));
        case scene::CrownForm::dome:
            return std::sqrt(std::max(0.0, 1.0 - v * v));
        case scene::CrownForm::cone:
            return 1.0 - v;
        case scene::CrownForm::column:
            break;
    }
    return 1.0;
}

/// The share v, from `lowest` to 1, at which scale(v) reach - v back is largest.
double farthest_share(scene::CrownForm form, double reach, double back, double lowest) {
    double v = lowest;
    switch (form) {
        case scene::CrownForm::ellipsoid:
            v = 0.5 - 0.25 * back / std::hypot(reach, 0.5 * back);
            break;
        case scene::CrownForm::dome:
            v = -back / std::hypot(reach, back);
            break;
        case scene::CrownForm::cone:
            v = reach >= -back ? lowest : 1.0;
            break;
        case scene::CrownForm::column:
            v = back >= 0.0 ? lowest : 1.0;
            break;
    }
    return std::clamp(v, lowest, 1.0);
}

/// Finds the corners at which a crown's shadow reaches farthest in given directions.
class CrownShadow {
  public:
    CrownShadow(const Crown& crown, const Throw& thrown_to)
        : crown_(crown),
          throw_(thrown_to),
          axis_{crown.axis.x, crown.axis.y},
          lowest_(
              std::clamp((thrown_to.level_z_m - crown.base_centre.z) / crown.height_m, 0.0, 1.0)) {}

    [[nodiscard]] Vec2 farthest(Vec2 direction) const {
        const double along = dot(direction, axis_) * crown_.half_width_m;
        const double side = dot(direction, left_of(axis_)) * crown_.half_across_m;
        const double reach = std::hypot(along, side);
        const double back = crown_.height_m * dot(direction, throw_.run_per_rise);
        const double v = farthest_share(crown_.form, reach, back, lowest_);
        const double scale = scale_at(crown_.form, v) / reach;
        const Vec2 on_ring = (scale * along * crown_.half_width_m) * axis_ +
                             (scale * side * crown_.half_across_m) * left_of(axis_);
        return throw_(crown_.base_centre + Vec3{on_ring.x, on_ring.y, v * crown_.height_m});
    }
    [[nodiscard]] double width(Vec2 direction) const {
        return dot(direction, farthest(direction) - farthest(-1.0 * direction));
    }

  private:
    const Crown& crown_;
    const Throw& throw_;
    Vec2 axis_;
    double lowest_;
};

/// Directions are even where the shadow is drawn as wide as long, so that its ends are as round
/// when the sun is low.
Outlines thrown(const Crown& crown, const Throw& thrown_to) {
    const CrownShadow shadow(crown, thrown_to);
    const double run = length(thrown_to.run_per_rise);
    const Vec2 ahead =
        run > 1e-9 ? (1.0 / run) * thrown_to.run_per_rise : Vec2{crown.axis.x, crown.axis.y};
    const double shadow_length = shadow.width(ahead);
    const double shadow_width = shadow.width(left_of(ahead));
    if (!(shadow_length > 0.0) || !(shadow_width > 0.0)) return {};
    std::vector<Vec2> corners;
    for (int i = 0; i < crown_corners; ++i) {
        const double angle = 2.0 * std::numbers::pi * i / crown_corners;
        corners.push_back(shadow.farthest((std::cos(angle) / shadow_length) * ahead +
                                          (std::sin(angle) / shadow_width) * left_of(ahead)));
    }
    Outlines outlines;
    add_if_any(outlines, convex_hull(std::move(corners)));
    return outlines;
}

Outlines thrown(const LathBody& laths, const Throw& thrown_to) {
    const double c = cos(laths.slat_tilt);
    const double s = sin(laths.slat_tilt);
    const Vec3 width = 0.5 * laths.slat_width_m * (c * laths.across + s * laths.up);
    const Vec3 depth = 0.5 * laths.thickness_m * (c * laths.up - s * laths.across);
    const Vec3 run = laths.length_m * laths.along;
    Outlines outlines;
    for (int i = 0; i < laths.count; ++i) {
        const Vec3 start = laths.corner + (i * laths.pitch_m) * laths.across;
        const std::array<Vec3, 4> around{start - width - depth, start + width - depth,
                                         start + width + depth, start - width + depth};
        ThrownPoints points(thrown_to);
        for (std::size_t k = 0; k < around.size(); ++k) {
            const Vec3 next = around[(k + 1) % around.size()];
            points.add_edge(around[k], next);
            points.add_edge(around[k] + run, next + run);
            points.add_edge(around[k], around[k] + run);
        }
        add_if_any(outlines, points.hull());
    }
    return outlines;
}

}  // namespace

std::vector<std::vector<Vec2>> shadow_outlines(const Piece& piece, Vec3 to_sun, double level_z_m) {
    if (!(to_sun.z > 1e-9) || piece.high.z <= level_z_m) return {};
    const Throw throw_to{(1.0 / to_sun.z) * Vec2{to_sun.x, to_sun.y}, level_z_m};
    if (const auto* crown = std::get_if<Crown>(&piece.body)) return thrown(*crown, throw_to);
    if (const auto* laths = std::get_if<LathBody>(&piece.body)) return thrown(*laths, throw_to);
    if (const auto* solid = std::get_if<ConvexSolid>(&piece.body)) {
        return thrown_as_one(solid->facets, throw_to);
    }
    if (const auto* sheet = std::get_if<Sheet>(&piece.body)) {
        return sheet->is_planar ? thrown_as_one(sheet->facets, throw_to)
                                : thrown_apart(sheet->facets, throw_to);
    }
    return thrown_apart(std::get<MeshBody>(piece.body).facets, throw_to);
}

}  // namespace sunfleck::geometry
