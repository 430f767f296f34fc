#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/scene/scene.h"

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

/// The garden as light meets it: pieces in world coordinates (x east, y north, z up, metres).
namespace sunfleck::geometry {

struct Triangle {
    Vec3 a;
    Vec3 b;
    Vec3 c;
};

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

/// Stretched or sagging cloth without thickness. Lets 1 - shade factor through at each sheet.
struct Sheet {
    std::vector<Triangle> facets;
    bool is_planar = true;  ///< all facets in one plane and their outline convex
    double transmittance = 0.0;
};

/// A crown: the ray's path length inside dims the light by exp(-k path).
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
    Angle slat_tilt;
};

/// An imported mesh; opaque.
struct MeshBody {
    std::vector<Triangle> facets;
};

using Body = std::variant<ConvexSolid, Sheet, Crown, LathBody, MeshBody>;

/// The thing in the scene that a piece belongs to.
struct Object {
    std::string id;
    std::string name;
    std::string pointer;  ///< JSON pointer in the scene
};

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

/// The far horizon and the ground plane, as the lowest altitude at which sky is seen.
struct Horizon {
    std::vector<scene::HorizonPoint> profile;  ///< by true azimuth; empty: level
    Vec3 ground_normal{0.0, 0.0, 1.0};         ///< unit normal of the ground plane
};

struct Garden {
    std::vector<Object> objects;
    std::vector<Piece> pieces;
    Horizon horizon;
};

/// Builds every occluder of the scene. Fails when a mesh cannot be read.
[[nodiscard]] Result<Garden> build_garden(const scene::Scene& scene);

/// What a date makes of each piece.
struct PieceOptics {
    bool hangs = true;     ///< false: light passes as if it were not there
    double k_per_m = 0.0;  ///< crowns: extinction on that day
};
[[nodiscard]] std::vector<PieceOptics> optics_on(const Garden& garden, Date date);

/// What a ray meets of one piece.
struct Passage {
    bool is_met = false;
    double transmittance = 1.0;  ///< share of direct light let through; 0: blocked
};

/// The ray from `origin` along the unit vector `direction` against one piece.
[[nodiscard]] Passage pass(const Piece& piece, const PieceOptics& optics, Vec3 origin,
                           Vec3 direction);

/// True when the sky is seen in that direction over the far horizon and the ground plane.
[[nodiscard]] bool is_over_horizon(const Horizon& horizon, Vec3 direction);
/// Altitude of the horizon at an azimuth: the higher of profile and ground plane.
[[nodiscard]] Angle horizon_altitude(const Horizon& horizon, Angle azimuth);

/// The shadow of a piece on the level plane at `level_z_m`, for pictures: convex outlines
/// in world x and y, whose union is the shadow. Empty when the sun is not above the plane.
[[nodiscard]] std::vector<std::vector<Vec2>> shadow_outlines(const Piece& piece, Vec3 to_sun,
                                                             double level_z_m);

}  // namespace sunfleck::geometry
