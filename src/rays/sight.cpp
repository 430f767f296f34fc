#include "sunfleck/rays/sight.h"

#include "rays/fan_plane.h"
#include "rays/lath_sight.h"
#include "rays/outline.h"
#include "sunfleck/base/require.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

// Directions of a beam: d with angle(d, axis) <= r. For a plane through the origin with outward
// unit normal n, the largest n.d in the beam is sin(angle above the plane + r); so the whole beam
// lies outside when n.axis >= sin r and inside when n.axis <= -sin r.

namespace sunfleck::rays {
namespace {

using geometry::Passage;
using geometry::Piece;

// A corner this near to a plane of a cone lies on it: far above rounding, far below any cloth.
constexpr double same_plane_m = 1e-9;
// Bounding boxes grow by this so that rounding in them can hide nothing.
constexpr double box_margin_m = 1e-6;

Piece box_of(const Piece& piece) {
    Piece box;
    const Vec3 margin{box_margin_m, box_margin_m, box_margin_m};
    box.low = piece.low - margin;
    box.high = piece.high + margin;
    return box;
}

Outline outline_in(const Piece& piece) {
    if (const auto* solid = std::get_if<geometry::ConvexSolid>(&piece.body)) {
        Outline outline = outline_of(*solid);
        if (outline.is_closed) return outline;
    }
    if (const auto* sheet = std::get_if<geometry::Sheet>(&piece.body)) return outline_of(*sheet);
    const Piece box = box_of(piece);
    return outline_of_box(box.low, box.high);
}

}  // namespace

Cover Sight::cover(const Beam& beam) const {
    if (kind_ == Kind::never) return Cover::none;
    const double sine = sin(beam.half_angle);
    if (misses(beam, sine)) return Cover::none;
    if (kind_ == Kind::body) return cover_of_body(beam);
    if (kind_ == Kind::arcs) return cover_of_arcs(beam, sine);
    if (!holds(beam.axis, sine)) return Cover::mixed;
    if (kind_ == Kind::laths) return laths_->cover(beam);
    return filled();
}

Cover Sight::filled() const {
    return is_uniform() && transmittance_ <= 0.0 ? Cover::dark : Cover::whole;
}

bool Sight::holds(Vec3 axis, double sine) const {
    for (const Vec3& normal : planes_) {
        if (dot(normal, axis) > -sine) return false;
    }
    return true;
}

std::optional<Vec3> Sight::only_edge(const Beam& beam) const {
    if (kind_ != Kind::cone) return std::nullopt;
    const double sine = sin(beam.half_angle);
    std::optional<Vec3> edge;
    for (const Vec3& normal : planes_) {
        if (dot(normal, beam.axis) <= -sine) continue;
        if (edge) return std::nullopt;
        edge = normal;
    }
    return edge;
}

bool Sight::misses(const Beam& beam, double sine) const {
    for (const Vec3& normal : planes_) {
        if (dot(normal, beam.axis) > sine) return true;
    }
    return false;
}

Cover Sight::cover_of_body(const Beam& beam) const {
    if (!may_fill_) return Cover::mixed;
    // The pyramid around the beam; a convex body that meets its four edges meets all within.
    const Vec3 up = std::abs(beam.axis.z) < 0.9 ? Vec3{0.0, 0.0, 1.0} : Vec3{1.0, 0.0, 0.0};
    const Vec3 side = normalised(cross(up, beam.axis));
    const Vec3 over = cross(beam.axis, side);
    const double reach = tan(beam.half_angle);
    const geometry::PieceOptics optics{.hangs = true, .k_per_m = 1.0};
    for (const auto& [x, y] : {std::pair{-1.0, -1.0}, {1.0, -1.0}, {-1.0, 1.0}, {1.0, 1.0}}) {
        const Vec3 corner = beam.axis + (x * reach) * side + (y * reach) * over;
        if (!geometry::pass(*piece_, optics, origin_, normalised(corner)).is_met) {
            return Cover::mixed;
        }
    }
    return filled();
}

Cover Sight::cover_of_arcs(const Beam& beam, double sine) const {
    for (const Arc& arc : arcs_) {
        const bool is_apart = std::abs(dot(arc.normal, beam.axis)) > sine ||
                              dot(arc.after_start, beam.axis) < -sine ||
                              dot(arc.before_end, beam.axis) < -sine;
        if (!is_apart) return Cover::mixed;
    }
    // No outline crosses the beam, so all of its rays cross the cloth as often as this one.
    const Passage passage = geometry::pass(*piece_, {}, origin_, beam.axis);
    if (!passage.is_met) return Cover::none;
    const bool is_crossed_once = passage.transmittance >= transmittance_ * (1.0 - 1e-9);
    return is_crossed_once ? filled() : Cover::mixed;
}

Passage Sight::pass(const geometry::PieceOptics& optics, Vec3 direction) const {
    if (!optics.hangs || kind_ == Kind::never) return {};
    if (kind_ != Kind::cone) return geometry::pass(*piece_, optics, origin_, direction);
    for (const Vec3& normal : planes_) {
        if (dot(normal, direction) > 0.0) return {};
    }
    return {.is_met = true, .transmittance = transmittance_};
}

void Sight::dim(const geometry::PieceOptics& optics, const geometry::RayFan& fan,
                FanLight light) const {
    if (!optics.hangs || kind_ == Kind::never) return;
    if (kind_ == Kind::cone) return dim_by_cone(fan, light);
    const double sine = std::max(length(fan.side), length(fan.over));
    if (kind_ == Kind::laths && holds(fan.centre, sine)) return laths_->dim(fan, light);
    if (const auto* crown = std::get_if<geometry::Crown>(&piece_->body)) {
        return dim_by_crown(*crown, optics.k_per_m, fan, light);
    }
    for (std::size_t i = 0; i < fan.size(); ++i) {
        if (!(light.kept[i] > 0.0)) continue;
        const Passage passage = geometry::pass(*piece_, optics, origin_, fan.direction(i));
        if (!passage.is_met) continue;
        light.kept[i] *= passage.transmittance;
        light.is_met[i] = 1.0;
    }
}

void Sight::dim_by_cone(const geometry::RayFan& fan, FanLight light) const {
    const std::span<double> outside = light.scratch.first(fan.size());
    std::fill(outside.begin(), outside.end(), -1.0);
    for (const Vec3& normal : planes_) raise_to_plane(fan, normal, outside);
    for (std::size_t i = 0; i < fan.size(); ++i) {
        const bool is_inside = outside[i] <= 0.0;
        light.kept[i] *= is_inside ? transmittance_ : 1.0;
        light.is_met[i] = is_inside ? 1.0 : light.is_met[i];
    }
}

void Sight::dim_by_crown(const geometry::Crown& crown, double k_per_m, const geometry::RayFan& fan,
                         FanLight light) {
    if (!(k_per_m > 0.0)) return;
    const std::span<double> paths_m = light.scratch.first(fan.size());
    geometry::crown_paths_m(crown, fan, paths_m);
    for (std::size_t i = 0; i < fan.size(); ++i) {
        if (!(paths_m[i] > 0.0)) continue;
        light.kept[i] *= std::exp(-k_per_m * paths_m[i]);
        light.is_met[i] = 1.0;
    }
}

Sights::Sights(const geometry::Garden& garden) : garden_(&garden) {
    outlines_.reserve(garden.pieces.size());
    for (const Piece& piece : garden.pieces) outlines_.push_back(outline_in(piece));
}

Sight Sights::from(Vec3 origin, Part part) const {
    SUNFLECK_REQUIRE(part.piece < garden_->pieces.size(), "a part names a piece of its garden");
    const Piece& piece = garden_->pieces[part.piece];
    Sight sight;
    sight.part_ = part;
    sight.origin_ = origin;
    sight.piece_ = &piece;
    if (const auto* mesh = std::get_if<geometry::MeshBody>(&piece.body)) {
        sight.see_facet(mesh->facets.at(part.facet));
        return sight;
    }
    const Outline& outline = outlines_[part.piece];
    const auto* laths = std::get_if<geometry::LathBody>(&piece.body);
    if (laths != nullptr) {
        sight.see_laths(outline, *laths);
    } else if (outline.is_box) {
        sight.see_box(outline);
    } else if (const auto* sheet = std::get_if<geometry::Sheet>(&piece.body)) {
        sight.see_sheet(outline, *sheet);
    } else {
        sight.see_solid(outline, std::get<geometry::ConvexSolid>(piece.body).transmittance);
    }
    return sight;
}

void Sight::see_facet(const geometry::Triangle& facet) {
    const Vec3 middle = (1.0 / 3.0) * (facet.a + facet.b + facet.c);
    add_plane(origin_, facet.a, facet.b, middle, planes_);
    add_plane(origin_, facet.b, facet.c, middle, planes_);
    add_plane(origin_, facet.c, facet.a, middle, planes_);
    const Vec3 across = cross(facet.b - facet.a, facet.c - facet.a);
    const bool is_edge_on = std::abs(dot(across, facet.a - origin_)) <= no_width * length(across);
    kind_ = planes_.size() == 3 && !is_edge_on ? Kind::cone : Kind::never;
}

void Sight::see_solid(const Outline& outline, double transmittance) {
    ConeInView view = cone_in_view(outline, origin_);
    transmittance_ = transmittance;
    planes_ = std::move(view.planes);
    kind_ = Kind::cone;
    if (!view.is_within && planes_.size() < 3) {  // too thin in view to be outlined
        kind_ = Kind::body;
        planes_.clear();
        may_fill_ = true;
    }
}

void Sight::see_sheet(const Outline& outline, const geometry::Sheet& sheet) {
    transmittance_ = sheet.transmittance;
    if (!sheet.is_planar) {
        if (!see_border(outline)) see_arcs(outline);
        return;
    }
    const geometry::Plane& face = outline.faces.front();
    if (std::abs(dot(face.normal, origin_) - face.offset) < no_width) return;
    const Vec3 middle = middle_of(outline);
    for (const OutlineEdge& edge : outline.edges) {
        add_plane(origin_, edge.a, edge.b, middle, planes_);
    }
    kind_ = planes_.size() >= 3 ? Kind::cone : Kind::never;
}

// A cloth that turns one side to the origin all over is crossed at most once by any ray. It then
// fills in view what its border bounds: one cone, when that is convex and holds the cloth itself
// (from within a bag of cloth its rim bounds the opening).
bool Sight::see_border(const Outline& outline) {
    const std::vector<Vec3>& corners = outline.border;
    if (corners.size() < 3) return false;
    const bool is_above = is_seen_from(outline.faces.front(), origin_);
    for (const geometry::Plane& face : outline.faces) {
        const double height = dot(face.normal, origin_) - face.offset;
        if (std::abs(height) < no_width || (height > 0.0) != is_above) return false;
    }
    std::vector<Vec3> planes;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        add_plane(origin_, corners[i], corners[(i + 1) % corners.size()], outline.within_border,
                  planes);
    }
    if (planes.size() != corners.size()) return false;
    for (const Vec3& plane : planes) {
        for (const Vec3& corner : corners) {
            if (dot(plane, corner - origin_) > same_plane_m) return false;
        }
    }
    planes_ = std::move(planes);
    kind_ = Kind::cone;
    return true;
}

void Sight::see_arcs(const Outline& outline) {
    kind_ = Kind::arcs;
    for (const OutlineEdge& edge : outline.edges) {
        const bool is_border = edge.right < 0;
        if (!is_border &&
            is_seen_from(outline.faces[static_cast<std::size_t>(edge.left)], origin_) ==
                is_seen_from(outline.faces[static_cast<std::size_t>(edge.right)], origin_)) {
            continue;
        }
        const Vec3 start = edge.a - origin_;
        const Vec3 end = edge.b - origin_;
        const Vec3 normal = cross(start, end);
        if (length(normal) <= no_width) continue;
        const Vec3 unit = normalised(normal);
        arcs_.push_back({.normal = unit,
                         .after_start = normalised(cross(unit, start)),
                         .before_end = normalised(cross(end, unit))});
    }
}

void Sight::see_box(const Outline& outline) {
    kind_ = Kind::body;
    planes_ = cone_in_view(outline, origin_).planes;
    const auto* solid = std::get_if<geometry::ConvexSolid>(&piece_->body);
    transmittance_ = solid != nullptr ? solid->transmittance : 0.0;
    is_varying_ = solid == nullptr;
    may_fill_ = true;
}

void Sight::see_laths(const Outline& outline, const geometry::LathBody& laths) {
    see_box(outline);
    may_fill_ = false;
    auto view = std::make_shared<const LathSight>(laths, origin_);
    if (!view->is_outlined()) return;
    laths_ = std::move(view);
    kind_ = Kind::laths;
}

}  // namespace sunfleck::rays
