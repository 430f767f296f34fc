#pragma once

#include "sunfleck/geometry/garden.h"
#include "sunfleck/geometry/ray_fan.h"
#include "sunfleck/rays/engine.h"

#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace sunfleck::rays {

/// How much of a beam a part of the garden covers.
enum class Cover {
    none,   ///< no ray of the beam meets it
    mixed,  ///< some may, some may not
    whole,  ///< every ray of the beam meets it
    dark,   ///< every ray of the beam meets it and none gets through
};

/// Light along the rays of a fan: the share kept, and 1 where anything was met; and room for twice
/// as many numbers, whose content means nothing.
struct FanLight {
    std::span<double> kept;
    std::span<double> is_met;
    std::span<double> scratch;
};

class LathSight;

/// An edge of a body's surface and the faces on its two sides.
struct OutlineEdge {
    Vec3 a;
    Vec3 b;
    int left = -1;   ///< face that runs from a to b when seen from outside; -1: none
    int right = -1;  ///< face that runs from b to a; -1: none
};

/// The edges of a body from which its outline in view is picked, found once per piece.
struct Outline {
    std::vector<geometry::Plane> faces;
    std::vector<OutlineEdge> edges;  ///< between two different faces, or at a border
    std::vector<Vec3> border;        ///< corners round a cloth, in order; empty for solids
    Vec3 within_border;              ///< a point of a cloth that is not on its border
    bool is_closed = false;          ///< every edge has two faces
    bool is_box = false;             ///< of the bounding box, not of the body itself
};

/// The part of a garden as it looks from one point: the planes and arcs through that point which
/// bound it in view. A convex body seen from outside fills the convex cone between the planes
/// through the point and its silhouette edges, so cover and passage need no distances.
class Sight {
  public:
    /// What the beam, which must start at the sight's own point, finds of it. Never `none` when a
    /// ray meets it, never `whole` when a ray passes it by, never `dark` when one gets through;
    /// `mixed` is always allowed. Where it is `whole` though is_uniform() does not hold, its light
    /// changes smoothly over the beam.
    [[nodiscard]] Cover cover(const Beam& beam) const;

    /// True when every ray that meets it keeps the same share of its light.
    [[nodiscard]] bool is_uniform() const { return !is_varying_; }
    /// Share of light kept where is_uniform(); 0 for opaque bodies.
    [[nodiscard]] double transmittance() const { return transmittance_; }
    /// True when the body is exactly the cone between planes(): a ray along d meets it when
    /// dot(normal, d) <= 0 for all of them (no plane: every ray does).
    [[nodiscard]] bool is_cone() const { return kind_ == Kind::cone; }
    [[nodiscard]] std::span<const Vec3> planes() const { return planes_; }
    /// The one plane whose side decides which rays of the beam meet it: those along d with
    /// dot(normal, d) <= 0. Nothing when it is no cone, or more than one plane crosses the beam.
    [[nodiscard]] std::optional<Vec3> only_edge(const Beam& beam) const;
    [[nodiscard]] Part part() const { return part_; }

    /// The ray from the sight's point along the unit vector `direction`.
    [[nodiscard]] geometry::Passage pass(const geometry::PieceOptics& optics, Vec3 direction) const;

    /// pass() for every ray of a fan from the sight's point, into what they have left.
    void dim(const geometry::PieceOptics& optics, const geometry::RayFan& fan,
             FanLight light) const;

  private:
    friend class Sights;
    enum class Kind { never, cone, arcs, laths, body };
    struct Arc {
        Vec3 normal;
        Vec3 after_start;
        Vec3 before_end;
    };

    void see_facet(const geometry::Triangle& facet);
    void see_solid(const Outline& outline, double transmittance);
    void see_sheet(const Outline& outline, const geometry::Sheet& sheet);
    [[nodiscard]] bool see_border(const Outline& outline);
    void see_arcs(const Outline& outline);
    void see_box(const Outline& outline);
    void see_laths(const Outline& outline, const geometry::LathBody& laths);
    void dim_by_cone(const geometry::RayFan& fan, FanLight light) const;
    static void dim_by_crown(const geometry::Crown& crown, double k_per_m,
                             const geometry::RayFan& fan, FanLight light);
    [[nodiscard]] Cover filled() const;
    [[nodiscard]] bool holds(Vec3 axis, double sine) const;
    [[nodiscard]] bool misses(const Beam& beam, double sine) const;
    [[nodiscard]] Cover cover_of_body(const Beam& beam) const;
    [[nodiscard]] Cover cover_of_arcs(const Beam& beam, double sine) const;

    Kind kind_ = Kind::never;
    bool is_varying_ = false;  ///< transmittance changes with the ray
    bool may_fill_ = false;    ///< kind body: convex, so four met corners mean all met
    double transmittance_ = 0.0;
    Part part_;
    Vec3 origin_;
    const geometry::Piece* piece_ = nullptr;
    std::vector<Vec3> planes_;  ///< outward unit normals of planes through the origin
    std::vector<Arc> arcs_;
    std::shared_ptr<const LathSight> laths_;
};

/// Makes the sights of a garden; finds each piece's outline once.
class Sights {
  public:
    explicit Sights(const geometry::Garden& garden);
    [[nodiscard]] Sight from(Vec3 origin, Part part) const;

  private:
    const geometry::Garden* garden_;
    std::vector<Outline> outlines_;  ///< of the piece, or of its bounding box
};

}  // namespace sunfleck::rays
