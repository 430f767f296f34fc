#pragma once

#include "rays/cone_view.h"
#include "rays/day_frames.h"
#include "rays/light_kernels.h"
#include "sunfleck/geometry/piece.h"

namespace sunfleck::rays {

/// The ball that holds a crown: of an ellipsoid around its middle.
[[nodiscard]] Ball ball_around(const geometry::Crown& crown, Vec3 low, Vec3 high);

/// A crown from a spot, as rays cross it; the ball around it is left out.
[[nodiscard]] CrownView crown_view(const geometry::Crown& crown, Vec3 spot);

/// The same with the ball, for finding when the sun is behind it.
[[nodiscard]] CrownView crown_view(const geometry::Crown& crown, const Ball& ball, Vec3 spot,
                                   const DayFrames& frames);

}  // namespace sunfleck::rays
