#include "geometry/lath_passage.h"
#include "sunfleck/geometry/piece.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace sunfleck::geometry {
namespace {

/// Grows to hold points.
struct Box {
    Vec3 low{std::numeric_limits<double>::max(), std::numeric_limits<double>::max(),
             std::numeric_limits<double>::max()};
    Vec3 high{-std::numeric_limits<double>::max(), -std::numeric_limits<double>::max(),
              -std::numeric_limits<double>::max()};
    void add(Vec3 p) {
        low = {std::min(low.x, p.x), std::min(low.y, p.y), std::min(low.z, p.z)};
        high = {std::max(high.x, p.x), std::max(high.y, p.y), std::max(high.z, p.z)};
    }
    void add(const std::vector<Triangle>& facets) {
        for (const Triangle& t : facets) {
            add(t.a);
            add(t.b);
            add(t.c);
        }
    }
};

Box box_of(const Crown& crown) {
    const auto reach = [&](double along, double side) {
        return std::hypot(crown.half_width_m * along, crown.half_across_m * side);
    };
    const double x = reach(crown.axis.x, crown.axis.y);
    const double y = reach(crown.axis.y, crown.axis.x);
    Box box;
    box.add(crown.base_centre + Vec3{-x, -y, 0.0});
    box.add(crown.base_centre + Vec3{x, y, crown.height_m});
    return box;
}

Box box_of(const LathBody& laths) {
    const LathHalves half = lath_halves(laths);
    // From afar each lath shades the whole of its pitch.
    const double margin = std::max(half.across_m, 0.5 * laths.pitch_m);
    const double last = (laths.count - 1) * laths.pitch_m;
    Box box;
    for (const double s : {0.0, laths.length_m}) {
        for (const double c : {-margin, last + margin}) {
            for (const double h : {-half.up_m, half.up_m}) {
                box.add(laths.corner + s * laths.along + c * laths.across + h * laths.up);
            }
        }
    }
    return box;
}

Box box_of(const Body& body) {
    if (const auto* crown = std::get_if<Crown>(&body)) return box_of(*crown);
    if (const auto* laths = std::get_if<LathBody>(&body)) return box_of(*laths);
    Box box;
    if (const auto* solid = std::get_if<ConvexSolid>(&body)) box.add(solid->facets);
    if (const auto* sheet = std::get_if<Sheet>(&body)) box.add(sheet->facets);
    if (const auto* mesh = std::get_if<MeshBody>(&body)) box.add(mesh->facets);
    return box;
}

}  // namespace

void fit_box(Piece& piece) {
    const Box box = box_of(piece.body);
    piece.low = box.low;
    piece.high = box.high;
}

}  // namespace sunfleck::geometry
