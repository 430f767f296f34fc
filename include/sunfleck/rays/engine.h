#pragma once

#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/geometry/garden.h"

#include <compare>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

/// Rays between receiver points and the sun: one interface, engines behind it.
namespace sunfleck::rays {

/// A round beam: every direction within `half_angle` of the unit vector `axis`, from one point.
struct Beam {
    Vec3 origin;
    Vec3 axis;
    Angle half_angle;  ///< 0 to below 45 degrees
};

/// What of the garden a beam may meet: a whole piece, or one facet of an imported mesh.
struct Part {
    static constexpr std::uint32_t whole_piece = 0xffffffffU;
    std::uint32_t piece = 0;            ///< index into Garden::pieces
    std::uint32_t facet = whole_piece;  ///< index into MeshBody::facets
    constexpr auto operator<=>(const Part&) const = default;
};

/// Answers for one garden. Every engine gives the same answers; they differ in speed only.
/// All calls may run at the same time on several threads.
class Engine {
  public:
    virtual ~Engine() = default;

    [[nodiscard]] virtual const geometry::Garden& garden() const = 0;

    /// What a ray towards the unit vector `to_sun` meets from each origin: met by any piece that
    /// hangs, and the product of all their transmittances. `optics` has one entry per piece;
    /// `passages` has one slot per origin. The far horizon and the ground are not asked: see
    /// geometry::is_over_horizon.
    virtual void pass_towards(Vec3 to_sun, std::span<const geometry::PieceOptics> optics,
                              std::span<const Vec3> origins,
                              std::span<geometry::Passage> passages) const = 0;

    /// Appends every part that some ray of the beam may meet, each once, ascending. A superset:
    /// no part that a ray of the beam meets is ever missing, some listed ones may be passed by.
    virtual void add_parts_in(const Beam& beam, std::vector<Part>& parts) const = 0;

  protected:
    Engine() = default;
    Engine(const Engine&) = default;
    Engine& operator=(const Engine&) = default;
};

/// The exact reference: CGAL trees of boxes over all triangles, with exact predicates, so that no
/// ray slips between two triangles that share an edge. Crowns and laths stand in the tree as
/// their bounding boxes and are then asked one by one. `garden` must outlive the engine.
[[nodiscard]] std::unique_ptr<Engine> make_reference_engine(const geometry::Garden& garden);

}  // namespace sunfleck::rays
