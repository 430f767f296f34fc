#include "sunfleck/geometry/passage.h"

#include "geometry/lath_passage.h"
#include "geometry/ray_box.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace sunfleck::geometry {
namespace {

constexpr double grown_m = 1e-9;
constexpr double least_distance_m = 1e-6;
constexpr Passage not_met{};
constexpr int most_sheets_crossed = 16;

Passage pass_solid(const ConvexSolid& solid, Vec3 origin, Vec3 direction) {
    double enters = 0.0;
    double leaves = std::numeric_limits<double>::infinity();
    for (const Plane& plane : solid.planes) {
        const double height = dot(plane.normal, origin) - plane.offset - grown_m;
        const double climb = dot(plane.normal, direction);
        if (climb < 0.0) {
            enters = std::max(enters, -height / climb);
        } else if (height > 0.0) {
            return not_met;
        } else if (climb > 0.0) {
            leaves = std::min(leaves, -height / climb);
        }
    }
    const bool is_met = leaves > least_distance_m && leaves >= enters && std::isfinite(enters);
    if (!is_met) return not_met;
    return {true, solid.transmittance};
}

Passage pass_sheet(const Sheet& sheet, Vec3 origin, Vec3 direction) {
    const int most = sheet.is_planar ? 1 : most_sheets_crossed;
    const int crossings = count_crossings(sheet.facets, sheet.tree, origin, direction, most);
    if (crossings == 0) return not_met;
    double transmittance = 1.0;
    for (int i = 0; i < crossings; ++i) transmittance *= sheet.transmittance;
    return {true, transmittance};
}

Passage pass_crown(const Crown& crown, double k_per_m, Vec3 origin, Vec3 direction) {
    if (!(k_per_m > 0.0)) return not_met;
    const double path_m = crown_path_m(crown, origin, direction);
    if (!(path_m > 0.0)) return not_met;
    return {true, std::exp(-k_per_m * path_m)};
}

Passage pass_mesh(const MeshBody& mesh, Vec3 origin, Vec3 direction) {
    if (count_crossings(mesh.facets, mesh.tree, origin, direction, 1) == 0) return not_met;
    return {true, 0.0};
}

}  // namespace

Passage pass(const Piece& piece, const PieceOptics& optics, Vec3 origin, Vec3 direction) {
    if (!optics.hangs || !may_meet_box(piece.low, piece.high, origin, direction)) return not_met;
    if (const auto* solid = std::get_if<ConvexSolid>(&piece.body)) {
        return pass_solid(*solid, origin, direction);
    }
    if (const auto* crown = std::get_if<Crown>(&piece.body)) {
        return pass_crown(*crown, optics.k_per_m, origin, direction);
    }
    if (const auto* sheet = std::get_if<Sheet>(&piece.body)) {
        return pass_sheet(*sheet, origin, direction);
    }
    if (const auto* laths = std::get_if<LathBody>(&piece.body)) {
        return pass_laths(*laths, origin, direction);
    }
    return pass_mesh(std::get<MeshBody>(piece.body), origin, direction);
}

}  // namespace sunfleck::geometry
