#include "geometry/polyhedron.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace sunfleck::geometry {
namespace {

using Face = std::vector<Vec3>;

constexpr double on_plane_m = 1e-12;

/// Twice the face's area along its normal (Newell): also right when corners are in one line.
Vec3 area_vector(const Face& face) {
    Vec3 sum;
    for (std::size_t i = 0; i < face.size(); ++i) {
        sum = sum + cross(face[i] - face[0], face[(i + 1) % face.size()] - face[0]);
    }
    return sum;
}

/// The face's part inside the plane; points on the cut are added to `cut`.
Face clipped_face(const Face& face, const Plane& plane, std::vector<Vec3>& cut) {
    Face kept;
    for (std::size_t i = 0; i < face.size(); ++i) {
        const Vec3 from = face[i];
        const Vec3 to = face[(i + 1) % face.size()];
        const double from_over = dot(plane.normal, from) - plane.offset;
        const double to_over = dot(plane.normal, to) - plane.offset;
        if (from_over <= on_plane_m) kept.push_back(from);
        if ((from_over < -on_plane_m && to_over > on_plane_m) ||
            (from_over > on_plane_m && to_over < -on_plane_m)) {
            kept.push_back(from + (from_over / (from_over - to_over)) * (to - from));
            cut.push_back(kept.back());
        } else if (std::abs(from_over) <= on_plane_m) {
            cut.push_back(from);
        }
    }
    return kept;
}

/// Is the face one of those that the plane bounds already?
bool lies_on(const Plane& plane, const Face& face) {
    return dot(plane.normal, area_vector(face)) > 0.0 &&
           std::all_of(face.begin(), face.end(), [&](Vec3 p) {
               return std::abs(dot(plane.normal, p) - plane.offset) <= on_plane_m;
           });
}

/// The convex face through points of one upward-facing plane: their hull seen from above.
Face lid_of(const std::vector<Vec3>& points, HeightPlane height) {
    std::vector<Vec2> seen;
    seen.reserve(points.size());
    for (const Vec3& p : points) seen.push_back({p.x, p.y});
    Face lid;
    for (const Vec2 p : convex_hull(std::move(seen))) lid.push_back({p.x, p.y, height(p)});
    return lid;
}

}  // namespace

Polyhedron prism(const Outline& convex, HeightPlane bottom, HeightPlane top) {
    Polyhedron body(2);
    for (const Vec2 p : convex) {
        body[0].push_back({p.x, p.y, bottom(p)});
        body[1].push_back({p.x, p.y, top(p)});
    }
    std::reverse(body[0].begin(), body[0].end());
    for (std::size_t i = 0; i < convex.size(); ++i) {
        const Vec2 p = convex[i];
        const Vec2 q = convex[(i + 1) % convex.size()];
        body.push_back(
            {{p.x, p.y, bottom(p)}, {q.x, q.y, bottom(q)}, {q.x, q.y, top(q)}, {p.x, p.y, top(p)}});
    }
    return body;
}

Polyhedron cut_below(const Polyhedron& body, HeightPlane height) {
    const Vec3 upward{-height.rise_per_m.x, -height.rise_per_m.y, 1.0};
    const double size = length(upward);
    const Plane plane{(1.0 / size) * upward, height.at_origin_m / size};
    Polyhedron kept;
    std::vector<Vec3> cut;
    for (const auto& face : body) {
        if (lies_on(plane, face)) return body;
        Face part = clipped_face(face, plane, cut);
        if (part.size() >= 3) kept.push_back(std::move(part));
    }
    if (kept.empty()) return kept;
    Face lid = lid_of(cut, height);
    if (lid.size() >= 3) kept.push_back(std::move(lid));
    return kept;
}

ConvexSolid solid_of(const Polyhedron& body, double transmittance) {
    ConvexSolid solid;
    solid.transmittance = transmittance;
    for (const auto& face : body) {
        const Vec3 area = area_vector(face);
        if (!(length(area) > 1e-12)) continue;
        const Vec3 normal = normalised(area);
        double offset = dot(normal, face[0]);
        for (const Vec3& p : face) offset = std::max(offset, dot(normal, p));
        solid.planes.push_back({normal, offset});
        for (std::size_t i = 2; i < face.size(); ++i) {
            solid.facets.push_back({face[0], face[i - 1], face[i]});
        }
    }
    return solid;
}

}  // namespace sunfleck::geometry
