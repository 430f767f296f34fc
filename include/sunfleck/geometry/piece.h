#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/geometry/triangle_tree.h"
#include "sunfleck/scene/scene.h"

#include <cstdint>
#include <variant>
#include <vector>

/// What stands in the light, in world coordinates: x east, y north, z up, metres.
namespace sunfleck::geometry {

/// Points p with dot(normal, p) <= offset are inside; the normal is a unit vector.
struct Plane {
    Vec3 normal;
    double offset = 0.0;
};

/// A closed convex body: board, post, stretch of wall, roof, tree trunk. Lets `transmittance`
/// through (0 for all but fences), once, however long the way through it.
struct ConvexSolid {
    std::vector<Plane> planes;
    std::vector<Triangle> facets;  ///< the same surface, outward, for trees of triangles
    double transmittance = 0.0;
};

/// Stretched or sagging cloth without thickness. Lets 1 - shade factor through at each crossing.
struct Sheet {
    std::vector<Triangle> facets;
    bool is_planar = true;  ///< all facets in one plane and their outline convex: crossed once
    double transmittance = 0.0;
    TriangleTree tree;  ///< over the facets; may be empty when they are few
};

/// A crown: the ray's path length inside dims the light by exp(-k path). Ellipsoid: touches its
/// lowest level at `base_centre`; dome: its upper half, flat below; cone: flat below, pointed
/// above; column: a cylinder.
struct Crown {
    scene::CrownForm form = scene::CrownForm::ellipsoid;
    Vec3 base_centre;  ///< middle of the crown's lowest level
    double height_m = 0.0;
    double half_width_m = 0.0;   ///< along `axis`
    double half_across_m = 0.0;  ///< square to it
    Vec3 axis;                   ///< level unit vector
    double diameter_m = 0.0;     ///< the diameter for which the transmissions are given
};

/// A panel of laths, each an opaque box; see scene::LathPanel. Resolved while pitch over distance
/// exceeds 1 degree, averaged below 0.5 degree, blended between.
struct LathBody {
    Vec3 corner;  ///< start of the first lath's axis
    Vec3 along;   ///< unit vector along the laths
    Vec3 across;  ///< unit vector from lath to lath, in the panel
    Vec3 up;      ///< unit normal of the panel
    double length_m = 0.0;
    int count = 0;
    double pitch_m = 0.0;
    double slat_width_m = 0.0;
    double thickness_m = 0.0;
    Angle slat_tilt;  ///< positive raises each lath's far edge
};

/// An imported mesh; opaque.
struct MeshBody {
    std::vector<Triangle> facets;
    TriangleTree tree;  ///< over the facets; without it every facet is tried
};

using Body = std::variant<ConvexSolid, Sheet, Crown, LathBody, MeshBody>;

/// One body that casts a shadow, and when.
struct Piece {
    std::uint32_t object = 0;  ///< index into Garden::objects
    Body body;
    std::vector<scene::YearSpan> up;  ///< when it hangs; empty: all year
    /// Crowns: extinction per metre in leaf and bare, and when the leaves change.
    double k_in_leaf_per_m = 0.0;
    double k_bare_per_m = 0.0;
    scene::LeafHabit leaf_habit = scene::LeafHabit::evergreen;
    MonthDay leaf_out{};
    MonthDay leaf_fall{};
    Vec3 low;  ///< corners of its bounding box
    Vec3 high;
};

/// Sets `low` and `high` from the body.
void fit_box(Piece& piece);

}  // namespace sunfleck::geometry
