#pragma once

#include "sunfleck/base/vec3.h"
#include "sunfleck/exposure/sun_arc.h"

#include <vector>

namespace sunfleck::exposure {

/// A stretch of the disk's way over a straight edge.
struct TransitPart {
    UtcSeconds from;
    UtcSeconds to;
    double outside = 0.0;  ///< mean share of the disk beyond the edge
};

/// Share of a disk beyond a straight edge whose distance from the middle is `offset` radii,
/// positive when the middle is beyond it. The circular segment's closed form.
[[nodiscard]] double share_beyond_edge(double offset);

/// Appends the disk's way, between two instants of the arc at most an hour apart, over the great
/// circle square to the unit vector `outward`; beyond it is where dot(outward, d) > 0. The parts
/// follow one another without a gap and are cut where the disk touches and where half of it is
/// beyond. Instants to 1 ms. False, with nothing appended, when the sun may turn back on its way
/// or creeps along the edge.
[[nodiscard]] bool add_edge_transit(const SunArc& arc, Vec3 outward, UtcSeconds from, UtcSeconds to,
                                    std::vector<TransitPart>& parts);

}  // namespace sunfleck::exposure
