#include "geometry/builders.h"

#include <cmath>

namespace sunfleck::geometry {

std::vector<Piece> pieces_of(const scene::LathPanel& panel, const Terrain& terrain) {
    const double pitch = panel.slat_width_m + panel.gap_m;
    std::vector<Piece> pieces;
    if (!(pitch > 0.0) || !(panel.slat_width_m > 0.0)) return pieces;
    LathBody laths;
    // As many whole laths as the width holds; the last needs no gap behind it.
    const double fitting = (panel.width_m + panel.gap_m) / pitch;
    laths.count = std::max(1, static_cast<int>(std::floor(fitting + 1e-6)));
    laths.pitch_m = pitch;
    laths.length_m = panel.length_m;
    laths.slat_width_m = panel.slat_width_m;
    laths.thickness_m = panel.thickness_m;
    laths.slat_tilt = panel.slat_tilt;
    const Vec2 along = terrain.towards(panel.bearing);
    const Vec2 left = left_of(along);
    laths.along = {along.x, along.y, 0.0};
    laths.across = {cos(panel.tilt) * left.x, cos(panel.tilt) * left.y, sin(panel.tilt)};
    laths.up = cross(laths.along, laths.across);
    const Vec3 corner =
        terrain.frame().world_point(panel.corner, terrain.frame().z_of(panel.height, panel.corner));
    laths.corner = corner + 0.5 * panel.slat_width_m * laths.across;
    Piece piece;
    piece.body = laths;
    piece.up = panel.up;
    pieces.push_back(std::move(piece));
    return pieces;
}

}  // namespace sunfleck::geometry
