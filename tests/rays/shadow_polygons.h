#pragma once

#include "sunfleck/base/vec3.h"
#include "sunfleck/geometry/piece.h"

#include <memory>
#include <vector>

namespace sunfleck::test {

/// The shadows of solids and cloths on a level plane as exact polygons: every facet above the
/// plane is projected along the light and their union is taken with CGAL's boolean sets. Knows
/// nothing of rays.
class ShadowPolygons {
  public:
    /// The part of each piece below the plane must be empty.
    ShadowPolygons(const std::vector<geometry::Piece>& pieces, Vec3 to_sun, double level_z_m);
    ~ShadowPolygons();
    ShadowPolygons(const ShadowPolygons&) = delete;
    ShadowPolygons& operator=(const ShadowPolygons&) = delete;

    [[nodiscard]] bool holds(Vec2 point) const;
    [[nodiscard]] double area_m2() const;

  private:
    struct Sets;
    std::unique_ptr<Sets> sets_;
};

}  // namespace sunfleck::test
