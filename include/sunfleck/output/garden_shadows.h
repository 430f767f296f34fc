#pragma once

#include "sunfleck/geometry/garden.h"
#include "sunfleck/output/canvas.h"
#include "sunfleck/output/plan_view.h"
#include "sunfleck/scene/plan_frame.h"

#include <span>
#include <vector>

namespace sunfleck::output {

/// A plane on which shadows fall: level at `z_m` under the origin, or sloped.
struct ShadowPlane {
    double z_m = 0.0;
    Vec2 rise_per_m;          ///< per metre east and north
    double lowest_z_m = 0.0;  ///< only what lies above this throws a shadow
};

/// The ground itself.
[[nodiscard]] ShadowPlane ground_plane(const geometry::Garden& garden);
/// A level top, such as a bench's: what lies under it throws no shadow on it.
[[nodiscard]] ShadowPlane level_plane(double z_m);

/// Shadows of one garden at one instant.
class ShadowCaster {
  public:
    ShadowCaster(const geometry::Garden& garden, std::vector<geometry::PieceOptics> optics,
                 const scene::PlanFrame& frame, Vec3 to_sun);

    /// Draws all shadows on a plane, inside `area`. Overlaps do not darken: what light meets
    /// nothing is hatched through cloth and paler through crowns.
    void draw(Canvas& canvas, const PlanView& view, const ShadowPlane& plane, const Path& area,
              const SheetBox& box, const Palette& palette = morning) const;

  private:
    enum class Kind { opaque, leafy, woven };
    /// The outlines that reach into `box`.
    [[nodiscard]] Path outlines(const PlanView& view, const ShadowPlane& plane, Kind kind,
                                const SheetBox& box) const;
    [[nodiscard]] static Kind kind_of(const geometry::Piece& piece);

    const geometry::Garden& garden_;
    std::vector<geometry::PieceOptics> optics_;
    const scene::PlanFrame& frame_;
    Vec3 to_sun_;
};

}  // namespace sunfleck::output
