#include "sunfleck/output/garden_shadows.h"

#include "output/hatch.h"
#include "sunfleck/base/require.h"
#include "sunfleck/geometry/garden.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::output {

namespace {

constexpr double leafy_share = 0.6;  // of a full shadow's strength
constexpr double woven_share = 0.3;  // between the lines of the hatch
constexpr double least_sine = 0.01;  // of the sun's height over the plane
constexpr double under_foot_m = 0.01;
constexpr double farthest_px = 1e6;  // of a shadow's end that is still drawn

/// Twice the area, with the sign of the turning sense.
double turning(std::span<const SheetPoint> points) {
    double sum = 0.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const SheetPoint a = points[i];
        const SheetPoint b = points[(i + 1) % points.size()];
        sum += a.x * b.y - b.x * a.y;
    }
    return sum;
}

/// Where the light that meets a level plane at `level_z` meets a sloped one: along the same ray.
class Slide {
  public:
    Slide(const ShadowPlane& plane, Vec3 to_sun, double level_z)
        : plane_(plane),
          to_sun_(to_sun),
          level_z_(level_z),
          closing_(to_sun.z - dot(plane.rise_per_m, Vec2{to_sun.x, to_sun.y})) {}

    [[nodiscard]] bool is_lit() const { return closing_ > least_sine; }
    [[nodiscard]] Vec2 operator()(Vec2 on_level) const {
        const double height = level_z_ - plane_.z_m - dot(plane_.rise_per_m, on_level);
        return on_level - (height / closing_) * Vec2{to_sun_.x, to_sun_.y};
    }

  private:
    ShadowPlane plane_;
    Vec3 to_sun_;
    double level_z_;
    double closing_;
};

}  // namespace

ShadowPlane ground_plane(const geometry::Garden& garden) {
    const Vec3 normal = garden.horizon.ground_normal;
    SUNFLECK_REQUIRE(normal.z > 0.0, "the ground stands upright");
    return {
        .z_m = 0.0, .rise_per_m = {-normal.x / normal.z, -normal.y / normal.z}, .lowest_z_m = -1e9};
}

ShadowPlane level_plane(double z_m) {
    return {.z_m = z_m, .rise_per_m = {}, .lowest_z_m = z_m};
}

ShadowCaster::ShadowCaster(const geometry::Garden& garden,
                           std::vector<geometry::PieceOptics> optics, const scene::PlanFrame& frame,
                           Vec3 to_sun)
    : garden_(garden), optics_(std::move(optics)), frame_(frame), to_sun_(to_sun) {
    SUNFLECK_REQUIRE(optics_.size() == garden_.pieces.size(), "each piece needs its optics");
}

ShadowCaster::Kind ShadowCaster::kind_of(const geometry::Piece& piece) {
    if (std::holds_alternative<geometry::Crown>(piece.body)) return Kind::leafy;
    if (const auto* sheet = std::get_if<geometry::Sheet>(&piece.body)) {
        return sheet->transmittance > 0.0 ? Kind::woven : Kind::opaque;
    }
    if (const auto* solid = std::get_if<geometry::ConvexSolid>(&piece.body)) {
        return solid->transmittance > 0.15 ? Kind::woven : Kind::opaque;
    }
    return Kind::opaque;
}

Path ShadowCaster::outlines(const PlanView& view, const ShadowPlane& plane, Kind kind,
                            const SheetBox& box) const {
    Path all;
    for (std::size_t i = 0; i < garden_.pieces.size(); ++i) {
        const geometry::Piece& piece = garden_.pieces[i];
        if (!optics_[i].hangs || kind_of(piece) != kind || piece.high.z <= plane.lowest_z_m) {
            continue;
        }
        // A level plane just under the piece's foot takes all of it, a flat net's too.
        const double level_z = std::max(piece.low.z - under_foot_m, plane.lowest_z_m);
        const Slide slide(plane, to_sun_, level_z);
        if (!slide.is_lit()) continue;
        for (const auto& outline : geometry::shadow_outlines(piece, to_sun_, level_z)) {
            std::vector<SheetPoint> points;
            points.reserve(outline.size());
            for (const Vec2& point : outline) {
                points.push_back(view.at(frame_.to_plan(slide(point))));
            }
            const bool is_near = std::all_of(points.begin(), points.end(), [](SheetPoint p) {
                return std::abs(p.x) < farthest_px && std::abs(p.y) < farthest_px;
            });
            if (points.size() < 3 || !is_near) continue;
            if (shared_area(box_around(points), box) <= 0.0) continue;
            // One turning sense for all, so that overlapping outlines never cancel.
            if (turning(points) < 0.0) std::reverse(points.begin(), points.end());
            all.add(polygon(points));
        }
    }
    return all;
}

void ShadowCaster::draw(Canvas& canvas, const PlanView& view, const ShadowPlane& plane,
                        const Path& area, const SheetBox& box, const Palette& palette) const {
    if (!(to_sun_.z > least_sine)) return;
    const ClipScope clip(canvas, area);
    const GroupScope group(canvas, palette.shadow_opacity);
    const Path woven = outlines(view, plane, Kind::woven, box);
    const Path leafy = outlines(view, plane, Kind::leafy, box);
    const Path opaque = outlines(view, plane, Kind::opaque, box);
    if (!woven.is_empty()) {
        canvas.fill(woven, palette.shadow.at_opacity(woven_share));
        hatch(canvas, woven, box, {.pitch = 5.0, .line_width = 1.8, .colour = palette.shadow});
    }
    if (!leafy.is_empty()) canvas.fill(leafy, palette.shadow.at_opacity(leafy_share));
    if (!opaque.is_empty()) canvas.fill(opaque, palette.shadow);
}

}  // namespace sunfleck::output
