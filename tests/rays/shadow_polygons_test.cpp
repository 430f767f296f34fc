// Rays against polygons: which points of a level bench top lie in shadow, by casting a ray from
// each and by projecting every shadow onto the bench (CGAL 5.5 boolean sets).
#include "rays/shadow_polygons.h"

#include "rays/hand_made_garden.h"
#include "sunfleck/rays/engine.h"
#include "sunfleck/sun/solar_position.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::test;

namespace {

constexpr double bench_z = 0.8;

// Beams, posts, boards and cloths over a bench top, all above it.
std::vector<geometry::Piece> things_over_bench(std::uint64_t seed) {
    Dice dice(seed);
    std::vector<geometry::Piece> pieces;
    for (int i = 0; i < 8; ++i) {
        const Vec3 low{dice.between(-2.0, 2.0), dice.between(-2.0, 2.0), dice.between(1.4, 2.6)};
        const Vec3 size{dice.between(0.05, 1.2), dice.between(0.02, 0.4), dice.between(0.02, 0.3)};
        pieces.push_back(
            solid_box(low, low + size, 0.0, dice.between(0.0, 3.0), dice.between(-0.3, 0.3)));
    }
    const double x = dice.between(-2.0, 0.0);
    pieces.push_back(level_cloth({x, -1.0}, {x + 1.4, 0.3}, 2.2, 0.6));
    pieces.push_back(sagging_cloth({x, 0.4}, {x + 1.5, 1.6}, 2.3, 0.15, 0.6));
    return pieces;
}

}  // namespace

TEST_CASE("points in the shade are those under projected shadows", "[rays][cross]") {
    int points = 0;
    int shaded = 0;
    for (std::uint64_t seed = 51; seed <= 54; ++seed) {
        const geometry::Garden garden = garden_of(things_over_bench(seed));
        const auto optics = all_up(garden);
        const auto engine = rays::make_reference_engine(garden);
        for (const auto& [azimuth_deg, altitude_deg] :
             {std::pair{180.0, 62.0}, {118.0, 35.0}, {251.0, 48.0}}) {
            const Vec3 to_sun =
                sun::direction(Angle::degrees(azimuth_deg), Angle::degrees(altitude_deg));
            const ShadowPolygons shadows(garden.pieces, to_sun, bench_z);
            std::vector<Vec3> origins;
            for (int i = 0; i < 40; ++i) {
                for (int j = 0; j < 20; ++j) {
                    origins.push_back({-2.0 + 0.1013 * i, -1.5 + 0.1507 * j, bench_z});
                }
            }
            std::vector<geometry::Passage> passages(origins.size());
            engine->pass_towards(to_sun, optics, origins, passages);
            for (std::size_t k = 0; k < origins.size(); ++k) {
                CAPTURE(seed, azimuth_deg, origins[k].x, origins[k].y);
                CHECK(passages[k].is_met == shadows.holds({origins[k].x, origins[k].y}));
                shaded += passages[k].is_met ? 1 : 0;
                ++points;
            }
        }
    }
    CHECK(points == 9600);
    CHECK(shaded > 1500);
}

TEST_CASE("a level net's shadow is the net moved", "[rays][published]") {
    // tests/data/shadow_geometry.json, "horizontal_net_offset": 1.2 m above the bench.
    struct Row {
        double altitude_deg;
        double azimuth_deg;
        double east_m;
        double north_m;
    };
    const Row rows[] = {{30, 220, 1.33600896, 1.59219348}, {60, 150, -0.34641016, 0.6}};
    for (const Row& row : rows) {
        const Vec3 to_sun =
            sun::direction(Angle::degrees(row.azimuth_deg), Angle::degrees(row.altitude_deg));
        const std::vector<geometry::Piece> net{level_cloth({0, 0}, {3, 2}, 2.0, 0.6)};
        const ShadowPolygons shadow(net, to_sun, 0.8);
        CHECK(shadow.area_m2() == Approx(6.0).epsilon(1e-9));
        const geometry::Garden garden = garden_of(net);
        const auto engine = rays::make_reference_engine(garden);
        const double edge = 1e-5;
        const std::vector<Vec3> origins{{row.east_m + edge, row.north_m + edge, 0.8},
                                        {row.east_m - edge, row.north_m + edge, 0.8},
                                        {row.east_m + edge, row.north_m - edge, 0.8},
                                        {row.east_m + 3 - edge, row.north_m + 2 - edge, 0.8},
                                        {row.east_m + 3 + edge, row.north_m + 2 - edge, 0.8}};
        std::vector<geometry::Passage> passages(origins.size());
        engine->pass_towards(to_sun, all_up(garden), origins, passages);
        const bool expected[] = {true, false, false, true, false};
        for (std::size_t i = 0; i < origins.size(); ++i) {
            CAPTURE(i);
            CHECK(passages[i].is_met == expected[i]);
            CHECK(shadow.holds({origins[i].x, origins[i].y}) == expected[i]);
        }
    }
}

TEST_CASE("shadows of poles, walls and overhangs have their published size", "[rays][published]") {
    // tests/data/shadow_geometry.json (plane trigonometry), to 1e-6 m.
    const auto engine_over = [](const geometry::Garden& garden) {
        return rays::make_reference_engine(garden);
    };
    const auto is_shaded = [](const rays::Engine& engine, Vec3 point, Vec3 to_sun) {
        std::vector<geometry::Passage> passage(1);
        const std::vector<Vec3> origin{point};
        engine.pass_towards(to_sun, all_up(engine.garden()), origin, passage);
        return passage[0].is_met;
    };
    SECTION("pole: tip of the shadow") {
        struct Row {
            double height_m, altitude_deg, azimuth_deg, tip_east_m, tip_north_m;
        };
        const Row rows[] = {{1, 45, 180, 0.0, 1.0},
                            {2, 30, 135, -2.44948974, 2.44948974},
                            {0.3, 62.5, 200, 0.05341333, 0.1467519},
                            {1.8, 8, 275, 12.75892847, -1.1162616}};
        for (const Row& row : rows) {
            const double thin = 1e-7;
            const geometry::Garden garden =
                garden_of({solid_box({-thin, -thin, 0}, {thin, thin, row.height_m})});
            const auto engine = engine_over(garden);
            const Vec3 to_sun =
                sun::direction(Angle::degrees(row.azimuth_deg), Angle::degrees(row.altitude_deg));
            const auto at = [&](double share) {
                return Vec3{share * row.tip_east_m, share * row.tip_north_m, 0.0};
            };
            CAPTURE(row.height_m);
            CHECK(is_shaded(*engine, at(1.0 - 2e-6), to_sun));
            CHECK_FALSE(is_shaded(*engine, at(1.0 + 2e-6), to_sun));
        }
    }
    SECTION("wall: depth of the shadow") {
        // The long wall of 2 m at 35 degrees of altitude, azimuth 150, towards the north.
        const geometry::Garden garden = garden_of({solid_box({-500, -1e-7, 0}, {500, 0, 2})});
        const auto engine = engine_over(garden);
        const Vec3 to_sun = sun::direction(Angle::degrees(150), Angle::degrees(35));
        CHECK(is_shaded(*engine, {0, 2.47362491 - 2e-6, 0}, to_sun));
        CHECK_FALSE(is_shaded(*engine, {0, 2.47362491 + 2e-6, 0}, to_sun));
    }
    SECTION("overhang: shadow down the wall") {
        // Projection 0.6 m at 2.2 m on a wall facing south; altitude 50, azimuth 210.
        const geometry::Garden garden =
            garden_of({solid_box({-500, -0.6, 2.2}, {500, 0, 2.2 + 1e-7})});
        const auto engine = engine_over(garden);
        const Vec3 to_sun = sun::direction(Angle::degrees(210), Angle::degrees(50));
        const double down_m = 0.82567111;
        CHECK(is_shaded(*engine, {0, 0, 2.2 - down_m + 2e-6}, to_sun));
        CHECK_FALSE(is_shaded(*engine, {0, 0, 2.2 - down_m - 2e-6}, to_sun));
    }
}
