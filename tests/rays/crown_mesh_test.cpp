// True crowns against meshes of them, ever finer: two ways that share nothing, the ellipsoid's own
// formula and Embree's triangles.
#include "rays/light_cases.h"
#include "sunfleck/rays/light_sums.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::test;

namespace {

// An octahedron whose edges are halved so many times, drawn out to the unit ball.
std::vector<geometry::Triangle> ball_facets(int halvings) {
    const std::array<Vec3, 4> round{Vec3{1, 0, 0}, {0, 1, 0}, {-1, 0, 0}, {0, -1, 0}};
    std::vector<geometry::Triangle> facets;
    for (std::size_t i = 0; i < 4; ++i) {
        facets.push_back({round[i], round[(i + 1) % 4], {0, 0, 1}});
        facets.push_back({round[(i + 1) % 4], round[i], {0, 0, -1}});
    }
    for (int step = 0; step < halvings; ++step) {
        std::vector<geometry::Triangle> finer;
        for (const geometry::Triangle& t : facets) {
            const Vec3 ab = normalised(t.a + t.b);
            const Vec3 bc = normalised(t.b + t.c);
            const Vec3 ca = normalised(t.c + t.a);
            finer.insert(finer.end(), {{t.a, ab, ca}, {ab, t.b, bc}, {ca, bc, t.c}, {ab, bc, ca}});
        }
        facets = finer;
    }
    return facets;
}

geometry::Piece crown_mesh(const geometry::Crown& crown, int halvings) {
    const Vec3 side{-crown.axis.y, crown.axis.x, 0.0};
    const auto placed = [&](Vec3 p) {
        return crown.base_centre + (p.x * crown.half_width_m) * crown.axis +
               (p.y * crown.half_across_m) * side +
               Vec3{0.0, 0.0, 0.5 * crown.height_m * (1.0 + p.z)};
    };
    geometry::MeshBody mesh;
    for (const geometry::Triangle& t : ball_facets(halvings)) {
        mesh.facets.push_back({placed(t.a), placed(t.b), placed(t.c)});
    }
    geometry::Piece piece;
    piece.body = mesh;
    geometry::fit_box(piece);
    return piece;
}

}  // namespace

TEST_CASE("Finer meshes of a crown come to its own minutes", "[rays][cross]") {
    const geometry::Piece tree =
        shaped_crown(scene::CrownForm::ellipsoid, {1.0, -2.5, 1.0}, 3.0, 1.4, 0.6, 0.5);
    const std::vector<rays::LightSpot> spots{{.point = {0.0, 0.0, 0.5}, .outward = {}},
                                             {.point = {2.0, 0.5, 1.5}, .outward = {}},
                                             {.point = {0.5, 1.0, 0.2}, .outward = {}}};
    const std::vector<Date> dates{make_date(2026, 2, 20), make_date(2026, 4, 10),
                                  make_date(2026, 10, 20)};
    const rays::SunTable sun(dates, test_place(48.0));
    const rays::LightRequest request{.spots = spots, .thread_count = 1};
    const geometry::Garden true_garden = garden_of({tree});
    const auto true_light = rays::make_solving_tracer(true_garden, sun)->trace(request);
    // An inscribed mesh of triangles half as long is a quarter as far within the crown.
    double before_min = 0.0;
    for (int halvings = 1; halvings <= 5; ++halvings) {
        CAPTURE(halvings);
        const geometry::Garden garden =
            garden_of({crown_mesh(std::get<geometry::Crown>(tree.body), halvings)});
        const auto light = rays::make_solving_tracer(garden, sun)->trace(request);
        double off_min = 0.0;
        for (std::size_t s = 0; s < spots.size(); ++s) {
            for (std::size_t d = 0; d < dates.size(); ++d) {
                off_min += rays::day_minutes(sun, true_light, s, d).filtered_min -
                           rays::day_minutes(sun, light, s, d).shade_min +
                           rays::day_minutes(sun, true_light, s, d).shade_min;
            }
        }
        CAPTURE(off_min, before_min);
        CHECK(off_min > -0.5);  // nine days of two ends of 1/32 min
        if (halvings > 1) CHECK(off_min < 0.35 * before_min + 0.3);
        before_min = off_min;
    }
    CHECK(before_min < 1.5);
}
