#pragma once

#include "sunfleck/base/vec3.h"
#include "sunfleck/geometry/piece.h"

#include <cstddef>
#include <span>

namespace sunfleck::geometry {

/// Rays from one point around one direction, such as towards points of the sun's disk: along
/// centre + x side + y over, for every x with its y, which need not be of unit length.
struct RayFan {
    Vec3 origin;
    Vec3 centre;
    Vec3 side;
    Vec3 over;
    std::span<const double> x;
    std::span<const double> y;

    [[nodiscard]] std::size_t size() const { return x.size(); }
    [[nodiscard]] Vec3 direction(std::size_t ray) const {
        return normalised(centre + x[ray] * side + y[ray] * over);
    }
};

/// crown_path_m() of every ray of the fan.
void crown_paths_m(const Crown& crown, const RayFan& fan, std::span<double> paths_m);

}  // namespace sunfleck::geometry
