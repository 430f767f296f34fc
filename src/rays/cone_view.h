#pragma once

#include "rays/day_frames.h"
#include "rays/light_kernels.h"
#include "sunfleck/geometry/piece.h"

#include <cstdint>
#include <vector>

namespace sunfleck::rays {

/// A ball around a body.
struct Ball {
    Vec3 centre;
    double radius_m = 0.0;
};
[[nodiscard]] Ball ball_around(const std::vector<Vec3>& points);

/// Appends those of the groups [first, end) of days on which the sun's declination may bring it
/// before the ball.
void add_groups_before(const Ball& ball, Vec3 spot, const DayFrames& frames, std::uint16_t first,
                       std::uint16_t end, std::vector<std::uint16_t>& groups);

/// A convex body whose outline from any spot is a cone: a closed solid, or a flat convex cloth.
struct ConeBody {
    struct Edge {
        std::uint16_t a = 0;  ///< corners
        std::uint16_t b = 0;
        std::uint16_t left = 0;  ///< faces, of a closed body
        std::uint16_t right = 0;
    };
    std::vector<Vec3> corners;
    std::vector<geometry::Plane> faces;  ///< of a cloth: its one plane
    std::vector<Edge> edges;
    bool is_closed = true;   ///< false: a cloth, all of whose edges are always in view
    bool is_usable = false;  ///< false: not sure to be a cone, or too many edges
    Vec3 middle;             ///< of a border: a point of the cloth that is not on it
    Ball ball;
    double top_z_m = 0.0;
};
[[nodiscard]] ConeBody cone_body(const geometry::ConvexSolid& solid);
[[nodiscard]] ConeBody cone_body(const geometry::Sheet& flat_sheet);

[[nodiscard]] ConeBody cone_body_of_box(Vec3 low, Vec3 high);

/// The border of a sagging cloth: its straight edges, each from corner to corner. `faces` are the
/// planes of its facets. Not usable unless the border is one loop.
[[nodiscard]] ConeBody border_of(const geometry::Sheet& sheet);

enum class ConeKind {
    nothing,    ///< never in view
    cone,       ///< as the planes say
    all_round,  ///< the spot is inside
    doubtful,   ///< the spot touches it: ask ray by ray
};

/// Sees bodies as cones. Keeps its memory from one to the next.
class ConeViewer {
  public:
    /// `sun_stays_above`: no lit sample is below the level, so that what lies below is left out.
    ConeViewer(const DayFrames& frames, const LightKernels& kernels, bool sun_stays_above)
        : frames_(&frames), kernels_(&kernels), sun_stays_above_(sun_stays_above) {}

    [[nodiscard]] ConeKind see(const ConeBody& body, Vec3 spot);
    /// A sagging cloth by its border: a cone when the spot has all facets on one side and the
    /// border is convex in view, else doubtful.
    [[nodiscard]] ConeKind see_border(const ConeBody& border, Vec3 spot);
    /// Of the last body seen as a cone.
    [[nodiscard]] const ConePlanes& planes() const { return planes_; }
    /// The half space dot(outward, d) <= 0.
    [[nodiscard]] const ConePlanes& half_space(Vec3 outward);

  private:
    [[nodiscard]] ConeKind see_cloth(const ConeBody& body, Vec3 spot);
    [[nodiscard]] ConeKind see_solid(const ConeBody& body, Vec3 spot);
    [[nodiscard]] bool add_edge(Vec3 a, Vec3 b, Vec3 to_middle);
    void add(Vec3 normal);

    const DayFrames* frames_;
    const LightKernels* kernels_;
    bool sun_stays_above_;
    ConePlanes planes_;
    std::vector<Vec3> corners_;  // from the spot
};

}  // namespace sunfleck::rays
