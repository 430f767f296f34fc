// Facets in CGAL's tree of boxes (5.5, Simple_cartesian<double>) as the independent check of what
// `pass` answers from planes, quadrics and our own tree.
#include "geometry/garden_scenes.h"

#include <CGAL/AABB_traits.h>
#include <CGAL/AABB_tree.h>
#include <CGAL/AABB_triangle_primitive.h>
#include <CGAL/Simple_cartesian.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <list>
#include <numbers>

using namespace sunfleck;
using namespace sunfleck::geometry;

namespace {

using Kernel = CGAL::Simple_cartesian<double>;
using Triangles = std::vector<Kernel::Triangle_3>;
using Primitive = CGAL::AABB_triangle_primitive<Kernel, Triangles::const_iterator>;
using Tree = CGAL::AABB_tree<CGAL::AABB_traits<Kernel, Primitive>>;

Kernel::Point_3 point(Vec3 p) {
    return {p.x, p.y, p.z};
}

class Oracle {
  public:
    explicit Oracle(const std::vector<Triangle>& facets) {
        for (const Triangle& t : facets) {
            triangles_.emplace_back(point(t.a), point(t.b), point(t.c));
        }
        tree_.rebuild(triangles_.begin(), triangles_.end());
    }
    [[nodiscard]] bool is_met(Vec3 origin, Vec3 direction) const {
        return tree_.do_intersect(ray(origin, direction));
    }
    /// Distances of all crossings, ascending, those of a shared edge once.
    [[nodiscard]] std::vector<double> crossings(Vec3 origin, Vec3 direction) const {
        std::list<typename Tree::Intersection_and_primitive_id<Kernel::Ray_3>::Type> found;
        tree_.all_intersections(ray(origin, direction), std::back_inserter(found));
        std::vector<double> distances;
        for (const auto& hit : found) {
            if (const auto* p = boost::get<Kernel::Point_3>(&hit.first)) {
                distances.push_back(dot(direction, Vec3{p->x(), p->y(), p->z()} - origin));
            }
        }
        std::sort(distances.begin(), distances.end());
        distances.erase(std::unique(distances.begin(), distances.end(),
                                    [](double a, double b) { return b - a < 1e-6; }),
                        distances.end());
        return distances;
    }

  private:
    static Kernel::Ray_3 ray(Vec3 origin, Vec3 direction) {
        return {point(origin), Kernel::Vector_3(direction.x, direction.y, direction.z)};
    }
    Triangles triangles_;
    Tree tree_;
};

const std::vector<Triangle>* facets_of(const Piece& piece) {
    if (const auto* solid = std::get_if<ConvexSolid>(&piece.body)) return &solid->facets;
    if (const auto* sheet = std::get_if<Sheet>(&piece.body)) return &sheet->facets;
    return nullptr;
}

/// A crown as a mesh whose corners lie on it.
std::vector<Triangle> crown_mesh(const Crown& crown, int steps) {
    const auto ring_point = [&](int i, int j) {
        // From the lowest level to the top; the first and last rings close the body.
        const double polar = std::numbers::pi * std::clamp(i, 0, steps) / steps;
        double z = 0.5 - 0.5 * std::cos(polar);
        double scale = 1.0;
        if (crown.form == scene::CrownForm::ellipsoid) scale = std::sin(polar);
        if (crown.form == scene::CrownForm::cone) scale = 1.0 - z;
        if (crown.form == scene::CrownForm::dome) {
            z = std::sin(0.5 * polar);
            scale = std::cos(0.5 * polar);
        }
        if (i < 0 || i > steps) scale = 0.0;
        const double angle = 2.0 * std::numbers::pi * j / steps;
        const Vec3 side{-crown.axis.y, crown.axis.x, 0.0};
        return crown.base_centre + (scale * crown.half_width_m * std::cos(angle)) * crown.axis +
               (scale * crown.half_across_m * std::sin(angle)) * side +
               Vec3{0.0, 0.0, z * crown.height_m};
    };
    std::vector<Triangle> mesh;
    for (int i = -1; i <= steps; ++i) {
        for (int j = 0; j < steps; ++j) {
            const Vec3 a = ring_point(i, j);
            const Vec3 b = ring_point(i, j + 1);
            const Vec3 c = ring_point(i + 1, j + 1);
            const Vec3 d = ring_point(i + 1, j);
            if (length(cross(b - a, c - a)) > 1e-12) mesh.push_back({a, b, c});
            if (length(cross(c - a, d - a)) > 1e-12) mesh.push_back({a, c, d});
        }
    }
    return mesh;
}

}  // namespace

TEST_CASE("solids and cloths are met where CGAL meets their facets", "[geometry][cross]") {
    Dice dice(1);
    int rays = 0;
    int met = 0;
    for (int garden_number = 0; garden_number < 12; ++garden_number) {
        const auto garden = build_garden(random_scene(dice));
        REQUIRE(garden);
        for (const Piece& piece : garden->pieces) {
            const std::vector<Triangle>* facets = facets_of(piece);
            if (facets == nullptr) continue;
            const Oracle oracle(*facets);
            for (int i = 0; i < 60; ++i) {
                const Vec3 origin = dice.point(8.0);
                const Vec3 aim{dice.between(piece.low.x, piece.high.x),
                               dice.between(piece.low.y, piece.high.y),
                               dice.between(piece.low.z, piece.high.z)};
                const Vec3 direction = normalised(aim - origin);
                const bool is_met = pass(piece, {}, origin, direction).is_met;
                CAPTURE(garden_number, i, garden->objects[piece.object].id);
                CHECK(is_met == oracle.is_met(origin, direction));
                met += is_met ? 1 : 0;
                ++rays;
            }
        }
    }
    CHECK(rays > 20000);
    CHECK(met > rays / 4);
    CHECK(met < rays * 9 / 10);
}

TEST_CASE("a sagging cloth dims once for each crossing that CGAL finds", "[geometry][cross]") {
    Dice dice(2);
    scene::Scene scene;
    scene.cloths.push_back(cloth_of({{0, 0, 2.2}, {3, 0, 2.2}, {3, 2, 2.2}, {0, 2, 2.2}}, 0.4));
    scene.cloths[0].sag_fraction = 0.1;
    const auto garden = build_garden(scene);
    REQUIRE(garden);
    const Piece& piece = garden->pieces.at(0);
    const Oracle oracle(std::get<Sheet>(piece.body).facets);
    std::array<int, 3> seen{};
    for (int i = 0; i < 6000; ++i) {
        // Flat rays below the edges cross the bag twice.
        const Vec3 origin{dice.between(-4.0, -1.0), dice.between(0.0, 2.0),
                          dice.between(1.8, 2.25)};
        const Vec3 aim{dice.between(0.5, 2.5), dice.between(0.5, 1.5), dice.between(1.9, 2.2)};
        const Vec3 direction = normalised(aim - origin);
        const std::size_t crossings = oracle.crossings(origin, direction).size();
        CAPTURE(i, crossings);
        CHECK(pass(piece, {}, origin, direction).transmittance ==
              Approx(std::pow(0.6, static_cast<double>(crossings))));
        if (crossings < seen.size()) ++seen[crossings];
    }
    CHECK(seen[0] > 100);
    CHECK(seen[1] > 100);
    CHECK(seen[2] > 100);
}

TEST_CASE("paths through crowns are the limit of ever finer meshes", "[geometry][cross]") {
    for (const auto form : {scene::CrownForm::ellipsoid, scene::CrownForm::cone,
                            scene::CrownForm::dome, scene::CrownForm::column}) {
        Crown crown;
        crown.form = form;
        crown.base_centre = {0.5, 0.2, 2.0};
        crown.height_m = 5.0;
        crown.half_width_m = 2.0;
        crown.half_across_m = 1.4;
        crown.axis = on_ground(20.0);
        std::array<double, 3> mean_short{};
        for (std::size_t level = 0; level < mean_short.size(); ++level) {
            const Oracle oracle(crown_mesh(crown, 8 << level));
            Dice dice(3);
            constexpr int rays = 400;
            for (int i = 0; i < rays; ++i) {
                const Vec3 aim = crown.base_centre + Vec3{0.0, 0.0, 2.0} + dice.point(1.5);
                const Vec3 direction = dice.direction();
                const Vec3 origin = aim - 20.0 * direction;
                const auto hits = oracle.crossings(origin, direction);
                const double chord = hits.size() == 2 ? hits[1] - hits[0] : 0.0;
                mean_short[level] += (crown_path_m(crown, origin, direction) - chord) / rays;
            }
        }
        CAPTURE(static_cast<int>(form), mean_short[0], mean_short[1], mean_short[2]);
        // Inscribed meshes are too thin, by the square of their step.
        CHECK(mean_short[0] > 0.0);
        CHECK(mean_short[0] / mean_short[1] == Approx(4.0).epsilon(0.25));
        CHECK(mean_short[1] / mean_short[2] == Approx(4.0).epsilon(0.25));
        CHECK(mean_short[2] < 0.02);
    }
}
