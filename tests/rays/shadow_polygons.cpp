#include "rays/shadow_polygons.h"

#include <CGAL/Boolean_set_operations_2.h>
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Polygon_set_2.h>

#include <variant>

namespace sunfleck::test {
namespace {

using Kernel = CGAL::Exact_predicates_exact_constructions_kernel;
using Polygon = CGAL::Polygon_2<Kernel>;

Kernel::Point_2 projected(Vec3 p, Vec3 to_sun, double level_z_m) {
    const double height = p.z - level_z_m;
    return {p.x - height * to_sun.x / to_sun.z, p.y - height * to_sun.y / to_sun.z};
}

const std::vector<geometry::Triangle>& facets_of(const geometry::Piece& piece) {
    if (const auto* solid = std::get_if<geometry::ConvexSolid>(&piece.body)) return solid->facets;
    return std::get<geometry::Sheet>(piece.body).facets;
}

}  // namespace

struct ShadowPolygons::Sets {
    CGAL::Polygon_set_2<Kernel> all;
};

ShadowPolygons::ShadowPolygons(const std::vector<geometry::Piece>& pieces, Vec3 to_sun,
                               double level_z_m)
    : sets_(std::make_unique<Sets>()) {
    for (const geometry::Piece& piece : pieces) {
        for (const geometry::Triangle& facet : facets_of(piece)) {
            Polygon polygon;
            for (const Vec3& corner : {facet.a, facet.b, facet.c}) {
                polygon.push_back(projected(corner, to_sun, level_z_m));
            }
            if (polygon.orientation() == CGAL::COLLINEAR) continue;
            if (polygon.is_clockwise_oriented()) polygon.reverse_orientation();
            sets_->all.join(polygon);
        }
    }
}

ShadowPolygons::~ShadowPolygons() = default;

bool ShadowPolygons::holds(Vec2 point) const {
    return sets_->all.oriented_side(Kernel::Point_2(point.x, point.y)) != CGAL::ON_NEGATIVE_SIDE;
}

double ShadowPolygons::area_m2() const {
    std::vector<CGAL::Polygon_with_holes_2<Kernel>> parts;
    sets_->all.polygons_with_holes(std::back_inserter(parts));
    Kernel::FT area = 0;
    for (const auto& part : parts) {
        area += part.outer_boundary().area();
        for (auto hole = part.holes_begin(); hole != part.holes_end(); ++hole) area += hole->area();
    }
    return CGAL::to_double(area);
}

}  // namespace sunfleck::test
