#include "base/within.h"
#include "geometry/garden_scenes.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::geometry;
using sunfleck::test::within;

namespace {

const Vec3 up{0.0, 0.0, 1.0};

/// Pieces whose box has this upper and lower level.
int count_between(const Garden& garden, double low_z, double high_z) {
    int count = 0;
    for (const Piece& piece : garden.pieces) {
        if (std::abs(piece.low.z - low_z) < 1e-9 && std::abs(piece.high.z - high_z) < 1e-9) {
            ++count;
        }
    }
    return count;
}

}  // namespace

TEST_CASE("a slatted top is boards with gaps of the stated widths", "[geometry][property]") {
    auto bench = rectangular_bench({0, 0}, 90.0, 3.0, {tier(0.8, 0.0, 0.6)});
    bench.board_width_m = 0.09;
    bench.board_gap_m = 0.015;
    const Garden garden = garden_with(bench);
    // 0.6 m at 0.105 m a board: five whole ones and one of 75 mm at the back.
    CHECK(count_between(garden, 0.77, 0.80) == 6);
    const auto light = [&](double from_front) {
        return light_at(garden, {1.0, from_front, 0.5}, up);
    };
    for (int i = 0; i < 6; ++i) {
        const double front = 0.105 * i;
        CAPTURE(i);
        CHECK(light(front + 0.001) == Approx(0.0));
        CHECK(light(std::min(front + 0.089, 0.599)) == Approx(0.0));
        if (i < 5) CHECK(light(front + 0.0975) == Approx(1.0));
    }
    CHECK(light(0.601) == Approx(1.0));
    CHECK(light(-0.001) == Approx(1.0));
}

TEST_CASE("a closed top is one board, and does not shade what stands on it",
          "[geometry][property]") {
    const Garden garden = garden_with(rectangular_bench({0, 0}, 90.0, 2.0, {tier(0.8, 0.0, 0.6)}));
    CHECK(count_between(garden, 0.77, 0.80) == 1);
    CHECK(light_at(garden, {1.0, 0.3, 0.801}, to_sun(0.1, 200.0)) == Approx(1.0));
    CHECK(light_at(garden, {1.0, 0.3, 0.80}, to_sun(0.1, 200.0)) == Approx(1.0));
    CHECK(light_at(garden, {1.0, 0.3, 0.7}, up) == Approx(0.0));
}

TEST_CASE("tiers rise, risers close their fronts, legs reach the slope", "[geometry][property]") {
    auto bench = rectangular_bench({0, 0}, 90.0, 2.0, {tier(0.4, 0.0, 0.3), tier(0.7, 0.3, 0.3)});
    const Garden open = garden_with(bench);
    bench.tiers[0].closed_riser = true;
    bench.tiers[1].closed_riser = true;
    const Garden closed = garden_with(bench, falling(10.0, 180.0));
    // Behind the upper tier's front, level with its riser, looking out to the front.
    const Vec3 behind{1.0, 0.5, 0.5};
    CHECK(light_at(open, behind, on_ground(180.0)) == Approx(1.0));
    CHECK(light_at(closed, behind, on_ground(180.0)) == Approx(0.0));
    CHECK(light_at(open, {1.0, 0.15, 0.2}, on_ground(180.0)) == Approx(1.0));
    CHECK(light_at(closed, {1.0, 0.15, 0.2}, on_ground(180.0)) == Approx(0.0));
    // Downhill to the front: the anchor is on the front edge, legs at the back are shorter.
    double lowest = 1.0;
    for (const Piece& piece : closed.pieces) lowest = std::min(lowest, piece.low.z);
    CHECK(lowest == within(0.0, 1e-9));
    // Where tiers meet, the legs of the higher one carry both: three rows of two.
    int legs = 0;
    for (const Piece& piece : open.pieces) {
        if (piece.low.z < 0.1) ++legs;
    }
    CHECK(legs == 6);
    const auto leg_light = [&](const Garden& garden, double x, double y, double z) {
        return light_at(garden, {x, -1.0, z}, normalised(Vec3{x, y, z} - Vec3{x, -1.0, z}));
    };
    CHECK(leg_light(open, 0.035, 0.3, 0.01) == Approx(0.0));
    CHECK(leg_light(open, 0.035 + 0.04, 0.3, 0.01) == Approx(1.0));
}

TEST_CASE("a long bench has legs no more than 2.5 m apart", "[geometry][property]") {
    const Garden garden = garden_with(rectangular_bench({0, 0}, 90.0, 6.0, {tier(0.8, 0.0, 0.6)}));
    // Bays of 6 m: three, so four legs in front and four behind.
    CHECK(count_between(garden, 0.0, 0.77) == 8);
    auto bare = rectangular_bench({0, 0}, 90.0, 6.0, {tier(0.8, 0.0, 0.6)});
    bare.has_legs = false;
    CHECK(garden_with(bare).pieces.size() == 1);
}

TEST_CASE("a bench with an inward corner covers its outline and no more", "[geometry][cross]") {
    scene::Bench bench;
    bench.label = label("C");
    bench.is_rectangle = false;
    bench.outline = {{0, 0}, {2, 0}, {2, 0.6}, {0.6, 0.6}, {0.6, 2}, {0, 2}};
    bench.bearing = Angle::degrees(90.0);
    bench.length_m = 2.0;
    bench.tiers = {tier(0.7, 0.0, 0.0)};
    bench.has_legs = false;
    for (const bool is_slatted : {false, true}) {
        if (is_slatted) {
            bench.board_width_m = 0.09;
            bench.board_gap_m = 0.01;
        }
        const Garden garden = garden_with(bench);
        Dice dice(5);
        for (int i = 0; i < 3000; ++i) {
            const double x = dice.between(-0.2, 2.2);
            const double y = dice.between(-0.2, 2.2);
            const bool is_on_board = !is_slatted || std::fmod(y, 0.1) < 0.09;
            const bool is_under =
                x > 0 && y > 0 && is_on_board && ((x < 2 && y < 0.6) || (x < 0.6 && y < 2));
            CAPTURE(is_slatted, x, y);
            CHECK((light_at(garden, {x, y, 0.1}, up) < 0.5) == is_under);
        }
    }
}

TEST_CASE("a bench outline that crosses itself is refused by name", "[geometry][property]") {
    scene::Scene scene;
    scene.file = "yard.json";
    scene::Bench bench;
    bench.label = {"C", "Corner bench", "/benches/4"};
    bench.is_rectangle = false;
    bench.outline = {{0, 0}, {2, 1}, {2, 0}, {0, 1}};
    bench.tiers = {tier(0.7, 0.0, 1.0)};
    scene.benches.push_back(bench);
    const auto garden = build_garden(scene);
    REQUIRE_FALSE(garden);
    REQUIRE(garden.error().size() == 1);
    CHECK(garden.error()[0].file == "yard.json");
    CHECK(garden.error()[0].pointer == "/benches/4/outline_m");
    CHECK(garden.error()[0].code == "outline_crosses_itself");
}

TEST_CASE("a post stand is a top on a post down to the slope", "[geometry][property]") {
    scene::Scene scene;
    scene.ground = {Angle::degrees(10.0), Angle::degrees(90.0)};
    scene::PostStand stand;
    stand.label = label("P");
    stand.position = {1.0, 0.0};
    stand.height_m = 1.1;
    scene.post_stands.push_back(stand);
    const auto garden = build_garden(scene);
    REQUIRE(garden);
    const double ground = -std::tan(Angle::degrees(10.0).in_radians());
    REQUIRE(garden->pieces.size() == 2);
    CHECK(garden->pieces[0].high.z == Approx(ground + 1.1));
    CHECK(garden->pieces[0].low.z == Approx(ground + 1.07));
    CHECK(garden->pieces[1].high.z == Approx(ground + 1.07));
    CHECK(garden->pieces[1].low.z == Approx(1.05 * ground));
    CHECK(garden->objects.at(0).id == "P");
}
