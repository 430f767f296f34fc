#include "rays/lath_boxes.h"

#include "rays/outline.h"

#include <cstddef>
#include <utility>

namespace sunfleck::rays {
namespace {

using geometry::ConvexSolid;
using geometry::LathBody;
using geometry::Triangle;

Vec3 turned(const LathBody& laths, Vec3 middle, Vec3 unit) {
    const Vec3 wide = cos(laths.slat_tilt) * laths.across + sin(laths.slat_tilt) * laths.up;
    const Vec3 thick = cos(laths.slat_tilt) * laths.up - sin(laths.slat_tilt) * laths.across;
    return middle + (unit.x * 0.5 * laths.length_m) * laths.along +
           (unit.y * 0.5 * laths.slat_width_m) * wide + (unit.z * 0.5 * laths.thickness_m) * thick;
}

ConvexSolid lath_box(const LathBody& laths, int number) {
    const Vec3 middle = laths.corner + (0.5 * laths.length_m) * laths.along +
                        (number * laths.pitch_m) * laths.across;
    // The frame may be left-handed; then the facets of a mirrored box run the right way round.
    const bool is_mirrored = dot(cross(laths.along, laths.across), laths.up) < 0.0;
    ConvexSolid box;
    for (const Triangle& facet : facets_of_box({-1, -1, -1}, {1, 1, 1})) {
        Triangle moved{turned(laths, middle, facet.a), turned(laths, middle, facet.b),
                       turned(laths, middle, facet.c)};
        if (is_mirrored) std::swap(moved.b, moved.c);
        box.facets.push_back(moved);
    }
    for (std::size_t i = 0; i < box.facets.size(); i += 2) {
        const Triangle& facet = box.facets[i];
        const Vec3 normal = normalised(cross(facet.b - facet.a, facet.c - facet.a));
        box.planes.push_back({.normal = normal, .offset = dot(normal, facet.a)});
    }
    return box;
}

}  // namespace

std::vector<ConvexSolid> lath_boxes(const LathBody& laths) {
    std::vector<ConvexSolid> boxes;
    if (!(laths.length_m > 0.0 && laths.slat_width_m > 0.0 && laths.thickness_m > 0.0)) {
        return boxes;
    }
    for (int i = 0; i < laths.count; ++i) boxes.push_back(lath_box(laths, i));
    return boxes;
}

geometry::Sheet lath_panel_sheet(const LathBody& laths) {
    const double low = -0.5 * laths.pitch_m;
    const double high = (laths.count - 0.5) * laths.pitch_m;
    const auto corner = [&](double s, double c) {
        return laths.corner + s * laths.along + c * laths.across;
    };
    geometry::Sheet sheet;
    sheet.facets = {{corner(0.0, low), corner(laths.length_m, low), corner(laths.length_m, high)},
                    {corner(0.0, low), corner(laths.length_m, high), corner(0.0, high)}};
    return sheet;
}

}  // namespace sunfleck::rays
