#pragma once

#include "rays/outline.h"
#include "sunfleck/geometry/garden.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <random>
#include <utility>
#include <vector>

/// Gardens put together by hand, without a scene, for tests of rays and exposure.
namespace sunfleck::test {

/// Even numbers that are the same with every library.
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : bits_(seed) {}
    [[nodiscard]] double between(double low, double high) {
        const double share = static_cast<double>(bits_() >> 11U) * 0x1.0p-53;
        return low + share * (high - low);
    }
    [[nodiscard]] Vec3 point(double low, double high) {
        const double x = between(low, high);
        const double y = between(low, high);
        return {x, y, between(low, high)};
    }
    [[nodiscard]] Vec3 direction() {
        while (true) {
            const Vec3 a = point(-1.0, 1.0);
            if (length(a) > 0.1 && length(a) <= 1.0) return normalised(a);
        }
    }

  private:
    std::mt19937_64 bits_;
};

inline geometry::Piece with_box(geometry::Body body, const std::vector<Vec3>& points) {
    geometry::Piece piece;
    piece.body = std::move(body);
    piece.low = points.front();
    piece.high = points.front();
    for (const Vec3& p : points) {
        piece.low = {std::min(piece.low.x, p.x), std::min(piece.low.y, p.y),
                     std::min(piece.low.z, p.z)};
        piece.high = {std::max(piece.high.x, p.x), std::max(piece.high.y, p.y),
                      std::max(piece.high.z, p.z)};
    }
    return piece;
}

inline geometry::Plane plane_through(const geometry::Triangle& facet) {
    const Vec3 normal = normalised(cross(facet.b - facet.a, facet.c - facet.a));
    return {.normal = normal, .offset = dot(normal, facet.a)};
}

/// A box from low to high, then turned about the z axis and tilted about x through its middle.
inline geometry::Piece solid_box(Vec3 low, Vec3 high, double transmittance = 0.0,
                                 double turn_rad = 0.0, double tilt_rad = 0.0) {
    const Vec3 middle = 0.5 * (low + high);
    const auto moved = [&](Vec3 p) {
        const Vec3 d = p - middle;
        const Vec3 t{d.x, d.y * std::cos(tilt_rad) - d.z * std::sin(tilt_rad),
                     d.y * std::sin(tilt_rad) + d.z * std::cos(tilt_rad)};
        return middle + Vec3{t.x * std::cos(turn_rad) - t.y * std::sin(turn_rad),
                             t.x * std::sin(turn_rad) + t.y * std::cos(turn_rad), t.z};
    };
    geometry::ConvexSolid solid;
    solid.transmittance = transmittance;
    std::vector<Vec3> points;
    for (const geometry::Triangle& facet : rays::facets_of_box(low, high)) {
        solid.facets.push_back({moved(facet.a), moved(facet.b), moved(facet.c)});
        points.insert(points.end(), {moved(facet.a), moved(facet.b), moved(facet.c)});
    }
    for (std::size_t i = 0; i < solid.facets.size(); i += 2) {
        solid.planes.push_back(plane_through(solid.facets[i]));
    }
    return with_box(solid, points);
}

/// A solid turned about the z axis so that what lay along +y lies towards a true bearing.
inline geometry::Piece towards(const geometry::Piece& piece, Angle bearing) {
    auto solid = std::get<geometry::ConvexSolid>(piece.body);
    const auto turned = [bearing](Vec3 p) {
        return Vec3{p.x * cos(bearing) + p.y * sin(bearing),
                    -p.x * sin(bearing) + p.y * cos(bearing), p.z};
    };
    std::vector<Vec3> points;
    for (geometry::Triangle& facet : solid.facets) {
        facet = {turned(facet.a), turned(facet.b), turned(facet.c)};
        points.insert(points.end(), {facet.a, facet.b, facet.c});
    }
    for (geometry::Plane& plane : solid.planes) plane.normal = turned(plane.normal);
    return with_box(solid, points);
}

/// A flat cloth over four corners in order.
inline geometry::Piece flat_cloth(const std::array<Vec3, 4>& corners, double transmittance) {
    geometry::Sheet sheet;
    sheet.is_planar = true;
    sheet.transmittance = transmittance;
    sheet.facets = {{corners[0], corners[1], corners[2]}, {corners[0], corners[2], corners[3]}};
    return with_box(sheet, {corners.begin(), corners.end()});
}

/// A level rectangle of cloth.
inline geometry::Piece level_cloth(Vec2 low, Vec2 high, double z, double transmittance) {
    return flat_cloth(
        {Vec3{low.x, low.y, z}, {high.x, low.y, z}, {high.x, high.y, z}, {low.x, high.y, z}},
        transmittance);
}

/// A cloth between z at its border and z - sag in the middle.
inline geometry::Piece sagging_cloth(Vec2 low, Vec2 high, double z, double sag_m,
                                     double transmittance, int cells = 6) {
    geometry::Sheet sheet;
    sheet.is_planar = false;
    sheet.transmittance = transmittance;
    const auto at = [&](int i, int j) {
        const double u = static_cast<double>(i) / cells;
        const double v = static_cast<double>(j) / cells;
        const double depth = 16.0 * u * (1.0 - u) * v * (1.0 - v) * sag_m;
        return Vec3{low.x + u * (high.x - low.x), low.y + v * (high.y - low.y), z - depth};
    };
    std::vector<Vec3> points;
    for (int i = 0; i < cells; ++i) {
        for (int j = 0; j < cells; ++j) {
            sheet.facets.push_back({at(i, j), at(i + 1, j), at(i + 1, j + 1)});
            sheet.facets.push_back({at(i, j), at(i + 1, j + 1), at(i, j + 1)});
            points.insert(points.end(), {at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)});
        }
    }
    return with_box(sheet, points);
}

/// A bag of four flat pieces from a level rim down to its middle.
inline geometry::Piece cloth_bag(Vec2 low, Vec2 high, double z, double depth_m,
                                 double transmittance) {
    const Vec3 foot{0.5 * (low.x + high.x), 0.5 * (low.y + high.y), z - depth_m};
    const std::vector<Vec3> rim{
        {low.x, low.y, z}, {high.x, low.y, z}, {high.x, high.y, z}, {low.x, high.y, z}};
    geometry::Sheet sheet;
    sheet.is_planar = false;
    sheet.transmittance = transmittance;
    for (std::size_t i = 0; i < 4; ++i) sheet.facets.push_back({rim[i], rim[(i + 1) % 4], foot});
    std::vector<Vec3> points = rim;
    points.push_back(foot);
    return with_box(sheet, points);
}

/// A crown like an egg or ball.
inline geometry::Piece ball_crown(Vec3 centre, double radius_m, double k_per_m) {
    geometry::Crown crown;
    crown.form = scene::CrownForm::ellipsoid;
    crown.base_centre = centre - Vec3{0.0, 0.0, radius_m};
    crown.height_m = 2.0 * radius_m;
    crown.half_width_m = radius_m;
    crown.half_across_m = radius_m;
    crown.axis = {1.0, 0.0, 0.0};
    crown.diameter_m = 2.0 * radius_m;
    const Vec3 reach{radius_m, radius_m, radius_m};
    geometry::Piece piece = with_box(crown, {centre - reach, centre + reach});
    piece.k_in_leaf_per_m = k_per_m;
    piece.k_bare_per_m = k_per_m;
    return piece;
}

/// A level panel of laths along y from `corner`, the first at its x.
inline geometry::Piece lath_panel(Vec3 corner, double length_m, int count, double slat_m,
                                  double gap_m, double thickness_m) {
    geometry::LathBody laths;
    laths.corner = corner;
    laths.along = {0.0, 1.0, 0.0};
    laths.across = {1.0, 0.0, 0.0};
    laths.up = {0.0, 0.0, 1.0};
    laths.length_m = length_m;
    laths.count = count;
    laths.pitch_m = slat_m + gap_m;
    laths.slat_width_m = slat_m;
    laths.thickness_m = thickness_m;
    const double half = 0.5 * slat_m;
    return with_box(laths,
                    {corner - Vec3{half, 0.0, thickness_m},
                     corner + Vec3{(count - 1) * laths.pitch_m + half, length_m, thickness_m}});
}

inline geometry::Garden garden_of(std::vector<geometry::Piece> pieces) {
    geometry::Garden garden;
    garden.objects.push_back({.id = "T", .name = "T", .pointer = ""});
    garden.pieces = std::move(pieces);
    return garden;
}

/// Every piece hangs; crowns as thick as in leaf.
inline std::vector<geometry::PieceOptics> all_up(const geometry::Garden& garden) {
    std::vector<geometry::PieceOptics> optics;
    for (const geometry::Piece& piece : garden.pieces) {
        optics.push_back({.hangs = true, .k_per_m = piece.k_in_leaf_per_m});
    }
    return optics;
}

/// Boards, posts, fences, cloths and crowns at random within some 10 m.
inline geometry::Garden random_garden(std::uint64_t seed, int solids = 24) {
    Dice dice(seed);
    std::vector<geometry::Piece> pieces;
    for (int i = 0; i < solids; ++i) {
        const Vec3 low = dice.point(-5.0, 5.0);
        const Vec3 size{dice.between(0.02, 1.5), dice.between(0.02, 1.5), dice.between(0.02, 1.5)};
        const double transmittance = i % 5 == 0 ? 0.3 : 0.0;
        const double turn = dice.between(0.0, 3.0);
        pieces.push_back(solid_box(low, low + size, transmittance, turn, dice.between(-0.5, 0.5)));
    }
    for (int i = 0; i < 3; ++i) {
        const double x = dice.between(-5.0, 2.0);
        const double y = dice.between(-5.0, 2.0);
        const double z = dice.between(1.0, 4.0);
        pieces.push_back(level_cloth({x, y}, {x + 2.0, y + 1.5}, z, 0.6));
        pieces.push_back(sagging_cloth({y, x}, {y + 2.0, x + 2.0}, z + 0.5, 0.2, 0.5));
        pieces.push_back(ball_crown({y, -x, z}, 0.8, 0.9));
    }
    return garden_of(std::move(pieces));
}

}  // namespace sunfleck::test
