#include "geometry/builders.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sunfleck::geometry {
namespace {

constexpr double flat_enough_m = 1e-3;
// Facets per edge of a cloth that is not plane: a sag of 5 % of 4 m is met to 2 mm.
constexpr int steps = 16;

/// How a cloth's corners lie.
enum class ClothShape { triangle, plane_quad, dart, ruled_quad };

std::vector<Vec3> corners_of(const scene::Cloth& cloth, const Terrain& terrain) {
    std::vector<Vec3> corners;
    for (const scene::ClothCorner& corner : cloth.corners) {
        corners.push_back(terrain.frame().world_point(
            corner.position, terrain.frame().z_of(corner.height, corner.position)));
    }
    return corners;
}

double longest_edge_m(const std::vector<Vec3>& corners) {
    double longest = 0.0;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        longest = std::max(longest, length(corners[(i + 1) % corners.size()] - corners[i]));
    }
    return longest;
}

/// Twice the area of a quad along its mean normal.
Vec3 quad_area(const std::vector<Vec3>& q) {
    return cross(q[2] - q[0], q[3] - q[1]);
}

/// The corner of a quad at which it turns inward; nothing when it is convex.
std::optional<std::size_t> inward_corner(const std::vector<Vec3>& q) {
    const Vec3 normal = quad_area(q);
    for (std::size_t i = 0; i < 4; ++i) {
        const Vec3 in = q[i] - q[(i + 3) % 4];
        const Vec3 out = q[(i + 1) % 4] - q[i];
        if (dot(cross(in, out), normal) < 0.0) return i;
    }
    return std::nullopt;
}

bool is_flat(const std::vector<Vec3>& q) {
    const Vec3 normal = quad_area(q);
    if (!(length(normal) > 0.0)) return true;
    return std::abs(dot(normalised(normal), q[1] - q[0])) < flat_enough_m;
}

ClothShape shape_of(const std::vector<Vec3>& corners) {
    if (corners.size() == 3) return ClothShape::triangle;
    if (inward_corner(corners)) return ClothShape::dart;
    return is_flat(corners) ? ClothShape::plane_quad : ClothShape::ruled_quad;
}

void add_cell(std::vector<Triangle>& facets, Vec3 a, Vec3 b, Vec3 c, Vec3 d) {
    facets.push_back({a, b, c});
    facets.push_back({a, c, d});
}

/// A quad ruled between its edges, hanging `sag_m` lower in the middle.
std::vector<Triangle> quad_facets(const std::vector<Vec3>& q, double sag_m) {
    const auto point = [&](int i, int j) {
        const double u = static_cast<double>(i) / steps;
        const double v = static_cast<double>(j) / steps;
        const Vec3 near = (1.0 - u) * q[0] + u * q[1];
        const Vec3 far = (1.0 - u) * q[3] + u * q[2];
        const double drop = sag_m * 16.0 * u * (1.0 - u) * v * (1.0 - v);
        return (1.0 - v) * near + v * far - Vec3{0.0, 0.0, drop};
    };
    std::vector<Triangle> facets;
    for (int i = 0; i < steps; ++i) {
        for (int j = 0; j < steps; ++j) {
            add_cell(facets, point(i, j), point(i + 1, j), point(i + 1, j + 1), point(i, j + 1));
        }
    }
    return facets;
}

/// A triangle hanging `sag_m` lower in the middle.
std::vector<Triangle> triangle_facets(Vec3 a, Vec3 b, Vec3 c, double sag_m) {
    const auto point = [&](int i, int j) {
        const double u = static_cast<double>(i) / steps;
        const double v = static_cast<double>(j) / steps;
        const double w = static_cast<double>(steps - i - j) / steps;
        return w * a + u * b + v * c - Vec3{0.0, 0.0, sag_m * 27.0 * u * v * w};
    };
    std::vector<Triangle> facets;
    for (int i = 0; i < steps; ++i) {
        for (int j = 0; i + j < steps; ++j) {
            facets.push_back({point(i, j), point(i + 1, j), point(i, j + 1)});
            if (i + j + 1 == steps) continue;
            facets.push_back({point(i + 1, j), point(i + 1, j + 1), point(i, j + 1)});
        }
    }
    return facets;
}

/// A quad that turns inward at a corner is two triangles from there to the corner across: that
/// line is taut, and each triangle sags by itself.
std::vector<Triangle> dart_facets(const std::vector<Vec3>& q, double sag_m) {
    const std::size_t from = inward_corner(q).value_or(0);
    const Vec3 a = q[from];
    const Vec3 b = q[(from + 1) % 4];
    const Vec3 c = q[(from + 2) % 4];
    const Vec3 d = q[(from + 3) % 4];
    if (!(sag_m > 0.0)) return {{a, b, c}, {a, c, d}};
    std::vector<Triangle> facets = triangle_facets(a, b, c, sag_m);
    const std::vector<Triangle> rest = triangle_facets(a, c, d, sag_m);
    facets.insert(facets.end(), rest.begin(), rest.end());
    return facets;
}

Sheet sheet_of(const std::vector<Vec3>& corners, double sag_m, double transmittance) {
    Sheet sheet;
    sheet.transmittance = transmittance;
    const bool sags = sag_m > 0.0;
    switch (shape_of(corners)) {
        case ClothShape::triangle:
            sheet.facets = sags ? triangle_facets(corners[0], corners[1], corners[2], sag_m)
                                : std::vector<Triangle>{{corners[0], corners[1], corners[2]}};
            sheet.is_planar = !sags;
            break;
        case ClothShape::plane_quad:
            sheet.facets = sags ? quad_facets(corners, sag_m)
                                : std::vector<Triangle>{{corners[0], corners[1], corners[2]},
                                                        {corners[0], corners[2], corners[3]}};
            sheet.is_planar = !sags;
            break;
        case ClothShape::dart:
            sheet.facets = dart_facets(corners, sag_m);
            sheet.is_planar = false;
            break;
        case ClothShape::ruled_quad:
            sheet.facets = quad_facets(corners, sag_m);
            sheet.is_planar = false;
            break;
    }
    if (sheet.facets.size() > 8) sheet.tree = build_triangle_tree(sheet.facets);
    return sheet;
}

}  // namespace

std::vector<Piece> pieces_of(const scene::Cloth& cloth, const Terrain& terrain) {
    std::vector<Piece> pieces;
    const std::vector<Vec3> corners = corners_of(cloth, terrain);
    if (corners.size() < 3) return pieces;
    const double transmittance = std::clamp(1.0 - cloth.shade_factor, 0.0, 1.0);
    const auto add = [&](Sheet sheet) {
        Piece piece;
        piece.body = std::move(sheet);
        piece.up = cloth.up;
        pieces.push_back(std::move(piece));
    };
    add(sheet_of(corners, cloth.sag_fraction * longest_edge_m(corners), transmittance));
    for (const scene::Flap& flap : cloth.flaps) {
        if (flap.edge < 0 || !(flap.drop_m > 0.0)) continue;
        const Vec3 from = corners[static_cast<std::size_t>(flap.edge) % corners.size()];
        const Vec3 to = corners[static_cast<std::size_t>(flap.edge + 1) % corners.size()];
        const Vec3 drop{0.0, 0.0, -flap.drop_m};
        add(sheet_of({from, to, to + drop, from + drop}, 0.0, transmittance));
    }
    return pieces;
}

}  // namespace sunfleck::geometry
