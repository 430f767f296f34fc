#pragma once

#include "sunfleck/base/vec3.h"
#include "sunfleck/geometry/piece.h"

namespace sunfleck::geometry {

/// What a date makes of a piece.
struct PieceOptics {
    bool hangs = true;     ///< false: light passes as if it were not there
    double k_per_m = 0.0;  ///< crowns: extinction on that day
};
[[nodiscard]] PieceOptics optics_on(const Piece& piece, Date date);

/// What a ray meets of one piece.
struct Passage {
    bool is_met = false;
    double transmittance = 1.0;  ///< share of direct light let through; 0: blocked
};

/// The ray from `origin` along the unit vector `direction` against one piece.
///
/// Solids are closed and grown by 1 nanometre, so that no light leaks between two that share a
/// face. What ends within 1 micrometre of the origin is not met: a receiver on a surface is not
/// shaded by it when the ray leaves it by more than 0.06 degrees. An origin within a solid is in
/// the dark, one within a crown sees the path from there on. Any direction may have components
/// that are zero; the answer is never NaN. Allocates nothing.
[[nodiscard]] Passage pass(const Piece& piece, const PieceOptics& optics, Vec3 origin,
                           Vec3 direction);

/// Metres of the ray that lie inside the crown, counted from the origin on; 0 when it misses.
/// Exact for the crown's form, to rounding (1e-9 m within 100 m).
[[nodiscard]] double crown_path_m(const Crown& crown, Vec3 origin, Vec3 direction);

/// Mean transmittance, over all places, of direct light through endless parallel laths, from
/// the slope of the ray across them: `run_per_rise` = metres moved from lath to lath per metre
/// moved square to the panel (tangent of the profile angle from the panel's normal).
///
/// With w, t width and thickness of a lath tilted by a, p the pitch, r the slope:
/// 1 - (w |cos a - r sin a| + t |sin a + r cos a|) / p, not below 0: a lath's shadow on the panel
/// is that of its two edges. Laths that overlap in the light's direction let nothing through.
[[nodiscard]] double mean_lath_transmittance(const LathBody& laths, double run_per_rise);

/// How far laths are told apart at a distance: 1 while pitch over distance exceeds 1 degree, 0
/// below 0.5 degree. Never rises with the distance.
[[nodiscard]] double lath_sharpness(double pitch_m, double distance_m);

/// How a ray sees a panel of laths: `sharp` of it one by one, the rest as their mean.
struct LathBlend {
    double sharp = 1.0;
    double mean = 1.0;  ///< transmittance of the panel; 1 beside it

    [[nodiscard]] double transmittance(bool is_blocked_by_a_lath) const {
        return sharp * (is_blocked_by_a_lath ? 0.0 : 1.0) + (1.0 - sharp) * mean;
    }
};
[[nodiscard]] LathBlend lath_blend(const LathBody& laths, Vec3 origin, Vec3 direction);

}  // namespace sunfleck::geometry
