#include "rays/light_cases.h"
#include "sunfleck/rays/light_spans.h"
#include "sunfleck/rays/light_sums.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::test;

namespace {

constexpr std::array<double, 10> latitudes_deg{55.7, 0.0,  90.0,  -90.0, -33.0,
                                               23.4, 70.0, -78.0, 51.5,  5.0};

// Spots in the open, in a crown, in the plane of a wall and beside it, in a solid.
std::vector<rays::LightSpot> spots_in(const geometry::Garden& garden, Dice& dice) {
    const auto& solid = std::get<geometry::ConvexSolid>(garden.pieces[0].body);
    const geometry::Triangle& facet = solid.facets[0];
    const geometry::Piece& crown = garden.pieces.back();
    return {
        {.point = dice.point(-3.0, 3.0), .outward = {}},
        {.point = 0.5 * (crown.low + crown.high), .outward = {}},
        {.point = facet.a + 2.5 * (facet.b - facet.a) + 0.3 * (facet.c - facet.a), .outward = {}},
        {.point = 0.5 * (garden.pieces[1].low + garden.pieces[1].high), .outward = {}},
        {.point = dice.point(-3.0, 3.0), .outward = dice.direction()}};
}

rays::LightSpans fast_light(const geometry::Garden& garden, const rays::SunTable& sun,
                            const std::vector<rays::LightSpot>& spots,
                            const std::string& target = {}, int threads = 1) {
    return rays::make_solving_tracer(garden, sun)
        ->trace({.spots = spots, .thread_count = threads, .simd_target = target});
}

rays::LightSpans slow_light(const rays::Engine& engine, const rays::SunTable& sun,
                            const std::vector<rays::LightSpot>& spots) {
    return rays::make_sampling_tracer(engine, sun)->trace({.spots = spots, .thread_count = 1});
}

}  // namespace

TEST_CASE("Solved spans answer every minute as rays do, in a thousand random gardens",
          "[rays][property]") {
    Agreement agreement;
    for (int scene = 0; scene < 1000; ++scene) {
        Dice dice(500 + static_cast<std::uint64_t>(scene));
        const geometry::Garden garden = random_garden(static_cast<std::uint64_t>(scene), 8);
        const double latitude = latitudes_deg[static_cast<std::size_t>(scene) % 10];
        const rays::SunTable sun(random_dates(dice, 1),
                                 test_place(latitude, dice.between(-180, 180)));
        std::vector<rays::LightSpot> spots = spots_in(garden, dice);
        spots = {spots[static_cast<std::size_t>(scene) % spots.size()]};
        const PieceByPiece engine(garden);
        // The slow engine has no walls behind spots other than the request's own.
        compare(sun, spots, fast_light(garden, sun, spots), slow_light(engine, sun, spots), engine,
                agreement);
    }
    CAPTURE(agreement.rays, agreement.at_edges);
    CHECK(agreement.rays > 400000);
    CHECK(agreement.different == 0);
    CHECK(agreement.at_edges < 20);
}

TEST_CASE("Laths, crowns of every form, meshes, dates and hills are answered as rays are",
          "[rays][property]") {
    Agreement agreement;
    for (int scene = 0; scene < 250; ++scene) {
        Dice dice(4000 + static_cast<std::uint64_t>(scene));
        const geometry::Garden garden = rich_garden(static_cast<std::uint64_t>(scene), 3);
        const double latitude = latitudes_deg[static_cast<std::size_t>(scene) % 10];
        const rays::SunTable sun(random_dates(dice, 2),
                                 test_place(latitude, dice.between(-180, 180)));
        const std::vector<rays::LightSpot> spots{{.point = dice.point(-3.0, 3.0), .outward = {}}};
        const PieceByPiece engine(garden);
        compare(sun, spots, fast_light(garden, sun, spots), slow_light(engine, sun, spots), engine,
                agreement);
    }
    CAPTURE(agreement.rays, agreement.at_edges);
    CHECK(agreement.rays > 200000);
    CHECK(agreement.different == 0);
    CHECK(agreement.at_edges < 20);
}

TEST_CASE("Effective minutes agree with the mean of every minute's ray", "[rays][property]") {
    // A minute's ray stands for the minute: where a span begins or ends, half of it may be wrong.
    for (int scene = 0; scene < 60; ++scene) {
        CAPTURE(scene);
        Dice dice(60 + static_cast<std::uint64_t>(scene));
        const geometry::Garden garden = rich_garden(100 + static_cast<std::uint64_t>(scene), 2);
        const rays::SunTable sun(random_dates(dice, 2), test_place(dice.between(-60, 60)));
        const std::vector<rays::LightSpot> spots{{.point = dice.point(-3.0, 3.0), .outward = {}},
                                                 {.point = dice.point(-3.0, 3.0), .outward = {}}};
        const PieceByPiece engine(garden);
        const rays::LightSpans fast = fast_light(garden, sun, spots);
        const rays::LightSpans slow = slow_light(engine, sun, spots);
        for (std::size_t s = 0; s < spots.size(); ++s) {
            for (std::size_t d = 0; d < sun.days().size(); ++d) {
                CAPTURE(s, d);
                const double solved = rays::day_minutes(sun, fast, s, d).effective_min;
                const double sampled = rays::day_minutes(sun, slow, s, d).effective_min;
                const double ends = static_cast<double>(fast.day(s, d).size()) + 1.0;
                CHECK(std::abs(solved - sampled) < 0.6 * ends);
            }
        }
    }
}

TEST_CASE("Solved spans agree with CGAL's exact tree", "[rays][cross]") {
    // CGAL 5.5, AABB tree with exact predicates.
    Agreement agreement;
    for (int scene = 0; scene < 12; ++scene) {
        Dice dice(77 + static_cast<std::uint64_t>(scene));
        const geometry::Garden garden = random_garden(2000 + static_cast<std::uint64_t>(scene), 24);
        const rays::SunTable sun(random_dates(dice, 4), test_place(55.7, 12.6));
        const std::vector<rays::LightSpot> spots = spots_in(garden, dice);
        const auto engine = rays::make_reference_engine(garden);
        compare(sun, spots, fast_light(garden, sun, spots), slow_light(*engine, sun, spots),
                *engine, agreement);
    }
    CAPTURE(agreement.rays, agreement.at_edges);
    CHECK(agreement.rays > 100000);
    CHECK(agreement.different == 0);
    CHECK(agreement.at_edges < 10);
}

using rays::dates_from_to;

TEST_CASE("The sun in the zenith and along a wall's plane is answered as by rays",
          "[rays][property]") {
    // Within 1 March to 10 April the sun passes the zenith of the equator.
    const rays::SunTable sun(dates_from_to(make_date(2026, 3, 14), make_date(2026, 3, 26)),
                             test_place(0.0, 20.0));
    const geometry::Garden garden = garden_of({
        solid_box({-0.1, -0.1, 2.0}, {0.1, 0.1, 2.2}),   // overhead
        solid_box({-3.0, 0.0, -1.0}, {3.0, 0.2, 3.0}),   // runs east, its face through the spot's y
        solid_box({-4.0, -2.0, 0.5}, {-3.9, 2.0, 0.6}),  // a rail west
    });
    const std::vector<rays::LightSpot> spots{{.point = {0.0, -0.05, 0.0}, .outward = {}},
                                             {.point = {4.0, 0.0, 0.0}, .outward = {}},
                                             {.point = {5.0, 0.1, 0.0}, .outward = {}}};
    const PieceByPiece engine(garden);
    Agreement agreement;
    compare(sun, spots, fast_light(garden, sun, spots), slow_light(engine, sun, spots), engine,
            agreement);
    CHECK(agreement.rays > 20000);
    CHECK(agreement.different == 0);
}

TEST_CASE("A sun that refraction lifts back over an edge after its rise is seen",
          "[rays][property]") {
    // A block whose lower edge runs along the sun's way at its rise: refraction, which fades as
    // the sun climbs, lets it come in front, out from under, and in front again.
    const Vec3 corner{8.4406, 4.2848, 0.4297};
    const Vec3 along{-1.0510, 0.5970, -0.5391};
    const Vec3 across{0.2339, 0.4119, 0.0};
    const Vec3 up{-0.2234, 0.1269, 0.5760};
    geometry::ConvexSolid solid;
    std::vector<Vec3> points;
    const auto moved = [&](Vec3 p) { return corner + p.x * along + p.y * across + p.z * up; };
    for (const geometry::Triangle& facet : rays::facets_of_box({0, 0, 0}, {1, 1, 1})) {
        // The three directions are left-handed: turned round, the facets face outward.
        solid.facets.push_back({moved(facet.a), moved(facet.c), moved(facet.b)});
        points.insert(points.end(), {moved(facet.a), moved(facet.b), moved(facet.c)});
    }
    for (std::size_t i = 0; i < solid.facets.size(); i += 2) {
        solid.planes.push_back(plane_through(solid.facets[i]));
    }
    const geometry::Garden garden = garden_of({with_box(solid, points)});
    const std::vector<Date> dates{make_date(2025, 8, 5)};
    const rays::SunTable sun(dates, test_place(55.7, 12.6));
    const std::vector<rays::LightSpot> spots{{.point = {0.0, 0.0, 0.0}, .outward = {}}};
    const PieceByPiece engine(garden);
    const rays::LightSpans light = fast_light(garden, sun, spots);
    Agreement agreement;
    compare(sun, spots, light, slow_light(engine, sun, spots), engine, agreement);
    CHECK(agreement.different == 0);
    CHECK(light.day(0, 0).size() == 2);  // below the edge for some minutes, then the open day
}

TEST_CASE("Every instruction set and thread count gives the same bytes",
          "[rays][property][threads]") {
    const geometry::Garden garden = random_garden(31, 24);
    Dice dice(3);
    std::vector<rays::LightSpot> spots;
    for (int i = 0; i < 40; ++i) spots.push_back({.point = dice.point(-4.0, 4.0), .outward = {}});
    const rays::SunTable sun(random_dates(dice, 40), test_place(48.0));
    const rays::LightSpans light = fast_light(garden, sun, spots);
    REQUIRE(light.byte_count() > 10000);
    REQUIRE(rays::simd_targets().size() >= 2);
    for (const std::string& target : rays::simd_targets()) {
        CAPTURE(target);
        CHECK(fast_light(garden, sun, spots, target) == light);
    }
    CHECK(fast_light(garden, sun, spots, {}, 2) == light);
    CHECK(fast_light(garden, sun, spots, {}, 5) == light);
}

TEST_CASE("Traced for what is opaque, nets and crowns are not there", "[rays][property]") {
    const geometry::Garden garden =
        garden_of({level_cloth({-2, -2}, {2, 2}, 2.0, 0.5), ball_crown({0, -3, 2}, 1.0, 0.8),
                   solid_box({-1, -4, 0}, {1, -3.9, 6.0})});
    const rays::SunTable sun(dates_from_to(make_date(2026, 3, 21), make_date(2026, 3, 21)),
                             test_place(50.0));
    const std::vector<rays::LightSpot> spots{{.point = {0.0, 0.0, 0.5}, .outward = {}}};
    const auto tracer = rays::make_solving_tracer(garden, sun);
    const auto opaque = tracer->trace({.spots = spots, .kind = rays::LightKind::opaque_only});
    const auto all = tracer->trace({.spots = spots});
    const auto is_full = [](const rays::LightSpan& span) { return span.is_full(); };
    const auto day = opaque.day(0, 0);
    CHECK(std::all_of(day.begin(), day.end(), is_full));
    CHECK(day.size() == 2);  // before and after the wall
    CHECK_FALSE(std::all_of(all.day(0, 0).begin(), all.day(0, 0).end(), is_full));
}

TEST_CASE("From within a bag of cloth the open sky is open", "[rays][property]") {
    // There all facets are seen from one side, and the rim bounds the way out, not the cloth.
    Agreement agreement;
    const geometry::Garden garden = garden_of({cloth_bag({-1.0, -1.0}, {2.0, 1.5}, 1.4, 1.1, 0.5)});
    const PieceByPiece engine(garden);
    Dice dice(77);
    std::vector<rays::LightSpot> spots{{.point = {0.5, 0.2, 1.0}, .outward = {}},
                                       {.point = {0.4, 0.3, 0.5}, .outward = {}}};
    for (int i = 0; i < 30; ++i) {
        spots.push_back(
            {.point = {dice.between(-0.8, 1.8), dice.between(-0.8, 1.3), dice.between(0.2, 1.45)},
             .outward = {}});
    }
    const rays::SunTable sun(random_dates(dice, 4), test_place(35.0));
    compare(sun, spots, fast_light(garden, sun, spots), slow_light(engine, sun, spots), engine,
            agreement);
    CAPTURE(agreement.rays, agreement.at_edges);
    CHECK(agreement.rays > 60000);
    CHECK(agreement.different == 0);
}
