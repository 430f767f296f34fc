#include "geometry/builders.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace sunfleck::geometry {
namespace {

constexpr double overhang_thickness_m = 0.02;

/// One plane of a roof and the side of the plan that it covers: dot(normal, p) <= offset.
struct RoofPlane {
    HeightPlane height;
    Vec2 normal;
    double offset = 0.0;
};

/// Smallest and largest of dot(direction, p).
std::pair<double, double> extent_along(const Outline& outline, Vec2 direction) {
    double low = dot(direction, outline[0]);
    double high = low;
    for (const Vec2 p : outline) {
        low = std::min(low, dot(direction, p));
        high = std::max(high, dot(direction, p));
    }
    return {low, high};
}

/// The plane that is at `z` where dot(direction, p) = `at`, and rises along the unit `direction`.
HeightPlane rising(Vec2 direction, double at, double z, double rise_per_m) {
    return {z - rise_per_m * at, rise_per_m * direction};
}

/// The roof over the whole outline, overhang included; its lower edge is at the eaves.
std::vector<RoofPlane> roof_of(const scene::Building& building, const Outline& outline, Vec2 ridge,
                               double base_z) {
    const double eaves_z = base_z + building.eaves_height_m;
    const double rise = building.ridge_height_m - building.eaves_height_m;
    if (building.roof == scene::RoofForm::flat || !(rise > 0.0)) {
        return {{level(eaves_z), {0.0, 0.0}, 0.0}};
    }
    const Vec2 side = left_of(ridge);
    const auto [right, left] = extent_along(outline, side);
    if (building.roof == scene::RoofForm::shed) {
        return {{rising(side, left, eaves_z, -rise / (left - right)), {0.0, 0.0}, 0.0}};
    }
    const double middle = 0.5 * (left + right);
    const double slope = rise / (left - middle);
    return {{rising(side, left, eaves_z, -slope), -1.0 * side, -middle},
            {rising(side, right, eaves_z, slope), side, middle}};
}

/// The overhanging roof as thin bodies: each plane over its side of each part of the plan.
void add_overhang(std::vector<Piece>& pieces, const std::vector<Outline>& parts,
                  const std::vector<RoofPlane>& roof) {
    for (const Outline& part : parts) {
        for (const RoofPlane& plane : roof) {
            const Outline side = clipped(part, plane.normal, plane.offset);
            if (side.empty()) continue;
            add_solid(pieces,
                      prism(side, plane.height.raised(-overhang_thickness_m), plane.height));
        }
    }
}

/// The plan of the roof in convex parts. Where widening makes a narrow court close, each part of
/// the walls is widened by itself, which covers the same ground.
std::vector<Outline> widened_parts(const Outline& outline, const std::vector<Outline>& parts,
                                   double overhang_m) {
    if (auto whole = convex_parts(widened(outline, overhang_m))) return std::move(*whole);
    std::vector<Outline> result;
    for (const Outline& part : parts) {
        if (auto grown = convex_parts(widened(part, overhang_m))) {
            result.insert(result.end(), grown->begin(), grown->end());
        }
    }
    return result;
}

}  // namespace

Result<std::vector<Piece>> pieces_of(const scene::Building& building, const Terrain& terrain) {
    Outline outline = terrain.world(building.outline);
    const auto parts = convex_parts(outline);
    if (!parts) return failure(crossing_outline(building.label));
    const double base_z = terrain.base_z(outline[0], building.base_z_m);
    if (signed_area(outline) < 0.0) std::reverse(outline.begin(), outline.end());
    const bool has_overhang = building.eaves_overhang_m > 0.0;
    const std::vector<Outline> roof_parts =
        has_overhang ? widened_parts(outline, *parts, building.eaves_overhang_m) : *parts;
    Outline roof_corners;
    for (const Outline& part : roof_parts) {
        roof_corners.insert(roof_corners.end(), part.begin(), part.end());
    }
    const std::vector<RoofPlane> roof =
        roof_of(building, roof_corners, terrain.towards(building.ridge_bearing), base_z);
    const double over_all_z = base_z + std::max(building.eaves_height_m, building.ridge_height_m);
    double foot_z = base_z;
    if (!building.base_z_m) {
        for (const Vec2 p : outline) foot_z = std::min(foot_z, terrain.ground()(p));
    }
    std::vector<Piece> pieces;
    for (const Outline& part : *parts) {
        Polyhedron body = prism(part, level(foot_z), level(over_all_z + 1.0));
        for (const RoofPlane& plane : roof) body = cut_below(body, plane.height);
        add_solid(pieces, body);
    }
    if (has_overhang) add_overhang(pieces, roof_parts, roof);
    return pieces;
}

}  // namespace sunfleck::geometry
