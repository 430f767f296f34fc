#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/geometry/horizon.h"
#include "sunfleck/geometry/passage.h"
#include "sunfleck/geometry/piece.h"
#include "sunfleck/geometry/shadow_outline.h"
#include "sunfleck/scene/scene.h"

#include <string>
#include <vector>

/// The garden as light meets it: pieces in world coordinates (x east, y north, z up, metres).
namespace sunfleck::geometry {

/// The thing in the scene that a piece belongs to.
struct Object {
    std::string id;
    std::string name;
    std::string pointer;  ///< JSON pointer in the scene
};

struct Garden {
    std::vector<Object> objects;
    std::vector<Piece> pieces;
    Horizon horizon;
};

/// Builds every occluder of the scene, in scene order: benches, post stands, walls, buildings,
/// cloths, lath panels, trees, meshes. Fails when a mesh cannot be read or an outline crosses
/// itself. What the scene leaves open is taken so:
///
/// - Bench legs are 7 cm square, stand at the corners of the tiers (of a polygon bench: at its
///   outward corners) and every 2.5 m between; risers are 2 cm thick.
/// - A wall's line is the middle of its thickness. With no level given, foot and top follow the
///   ground; with one, both are level. Stretches join in a mitre, sharp turns in a bevel.
/// - A building's height is measured at the ground under its first corner; its walls go down to
///   the ground all round. The eaves height is that of the roof's lower edge, overhang included;
///   overhangs are 2 cm thick. A gable's ridge runs over the middle of the outline; a shed roof
///   falls to the left of its high edge.
/// - A cloth that is out of plane by under 1 mm is plane; else it is ruled between its edges. Sag
///   leaves the edges straight: 16 u (1-u) v (1-v), in a triangle 27 abc, of the depth at the
///   middle. A flap hangs plumb from the straight edge.
/// - A tree's trunk is a prism of 12 sides whose mean silhouette is the trunk's diameter. The
///   crown diameter of the transmissions is the mean of its two widths.
[[nodiscard]] Result<Garden> build_garden(const scene::Scene& scene);

/// What a date makes of each piece, in the order of Garden::pieces.
[[nodiscard]] std::vector<PieceOptics> optics_on(const Garden& garden, Date date);

}  // namespace sunfleck::geometry
