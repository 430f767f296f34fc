#include "sunfleck/scene/spots.h"

#include "base/within.h"
#include "scene/garden_maker.h"
#include "scene/plan_outline.h"

#include <catch2/catch.hpp>

using sunfleck::test::within;

namespace sunfleck::scene {
namespace {

Scene plain_scene() {
    return scene_at(51.5, -0.3, "Europe/London");
}

}  // namespace

TEST_CASE("Spots are numbered along the bench, row by row from the front", "[scene][property]") {
    Scene scene = plain_scene();
    // Front edge along plan x (bearing 90), the bench to its left: towards plan y.
    scene.benches = {rectangle_bench(scene, "A", {1.0, 2.0}, 90.0, 1.0, 0.6)};
    const auto spots = spots_of(scene);
    REQUIRE(spots.size() == 6);  // 1.0 m holds three pitches of 0.3, 0.6 m two rows
    CHECK(spots[0].id == "A-1");
    CHECK(spots[0].name == "Bench A 1");
    CHECK(spots[5].id == "A-6");
    // 0.05 m left over at both ends.
    CHECK(length(spots[0].position - Vec2{1.20, 2.15}) < 1e-12);
    CHECK(length(spots[2].position - Vec2{1.80, 2.15}) < 1e-12);
    CHECK(length(spots[3].position - Vec2{1.20, 2.45}) < 1e-12);
    CHECK(spots[3].row == 1);
    CHECK(spots[3].column == 0);
    CHECK(spots[0].length_m == Approx(0.30));
    CHECK(spots[0].depth_m == Approx(0.30));
    CHECK(spots[0].top_z_m == Approx(0.8));
    CHECK_FALSE(spots[0].headroom_m);
}

TEST_CASE("Numbers go on through the tiers from the lowest", "[scene][property]") {
    Scene scene = plain_scene();
    scene.benches = {rectangle_bench(scene, "B", {0, 0}, 90.0, 0.9, 0.3, {0.5, 0.75, 1.0})};
    const auto spots = spots_of(scene);
    REQUIRE(spots.size() == 9);
    for (std::size_t i = 0; i < 9; ++i) {
        CAPTURE(i);
        CHECK(spots[i].number == static_cast<int>(i) + 1);
        CHECK(spots[i].tier == static_cast<int>(i / 3) + 1);
        CHECK(spots[i].top_z_m == Approx(0.5 + 0.25 * static_cast<double>(i / 3)));
        CHECK_FALSE(spots[i].headroom_m);  // the tiers stand behind each other
    }
}

TEST_CASE("A shelf under another has headroom up to its underside", "[scene][property]") {
    Scene scene = plain_scene();
    Bench shelf = rectangle_bench(scene, "S", {0, 0}, 90.0, 0.9, 0.4, {0.3, 0.9});
    shelf.depth_m = 0.4;
    shelf.tiers[1].set_back_m = 0.1;
    scene.benches = {shelf};
    const auto spots = spots_of(scene);
    REQUIRE(spots.size() == 6);
    CHECK(spots[0].headroom_m.value_or(-1.0) == Approx(0.6 - 0.03));
    CHECK_FALSE(spots[3].headroom_m);
}

TEST_CASE("A post stand is one spot with the stand's own id", "[scene][property]") {
    Scene scene = plain_scene();
    scene.ground = {Angle::degrees(45.0), Angle::degrees(0.0)};
    PostStand stand;
    stand.label = {"P1", "Post 1", ""};
    stand.position = {1.0, 2.0};
    stand.height_m = 1.1;
    stand.receiver_height_m = 0.25;
    scene.post_stands = {stand};
    scene.benches = {rectangle_bench(scene, "A", {0, 0}, 90.0, 0.3, 0.3)};
    const auto spots = spots_of(scene);
    REQUIRE(spots.size() == 2);
    CHECK(spots[1].id == "P1");
    CHECK(spots[1].name == "Post 1");
    CHECK(spots[1].bench == "P1");
    CHECK(spots[1].holder == 1);
    CHECK(spots[1].top_z_m == Approx(-2.0 + 1.1));  // 2 m north lies 2 m lower at 45 degrees
    CHECK(spots[1].receiver_height_m.value_or(-1.0) == Approx(0.25));
    CHECK(find_spot(spots, "P1") == 1U);
    CHECK(find_spot(spots, "A-1") == 0U);
    CHECK_FALSE(find_spot(spots, "A-2"));
}

TEST_CASE("Spots placed by hand keep the file's order, names and heights", "[scene][property]") {
    Scene scene = plain_scene();
    Bench bench = rectangle_bench(scene, "C", {0, 0}, 90.0, 2.0, 0.6);
    bench.receiver_height_m = 0.2;
    bench.explicit_spots = {{.along_m = 1.5, .from_front_m = 0.3, .name = "corner"},
                            {.along_m = 0.5, .from_front_m = 0.2, .receiver_height_m = 0.4}};
    scene.benches = {bench};
    const auto spots = spots_of(scene);
    REQUIRE(spots.size() == 2);
    CHECK(spots[0].id == "C-1");
    CHECK(spots[0].name == "corner");
    CHECK(spots[1].name == "Bench C 2");
    CHECK(spots[0].is_explicit);
    CHECK(length(spots[0].position - Vec2{1.5, 0.3}) < 1e-12);
    CHECK(spots[0].receiver_height_m.value_or(-1.0) == Approx(0.2));
    CHECK(spots[1].receiver_height_m.value_or(-1.0) == Approx(0.4));
    CHECK(spots[0].length_m == Approx(1.0));  // to the end of the bench on both sides
    CHECK(spots[0].depth_m == Approx(0.6));
    CHECK(spots[1].depth_m == Approx(0.4));
}

TEST_CASE("The spots of an L fill its bar and its arm", "[scene][property]") {
    Scene scene = plain_scene();
    const std::vector<Vec2> ell{{0, 0}, {3, 0}, {3, 1}, {1, 1}, {1, 3}, {0, 3}};
    Bench bench = outline_bench(scene, "L", ell);
    bench.spot_pitch_m = 0.5;
    scene.benches = {bench};
    const auto spots = spots_of(scene);
    CHECK(spots.size() == 2 * 6 + 4 * 2);
    for (const Spot& spot : spots) CHECK(is_inside(ell, spot.position));
}

TEST_CASE("Cells beside a gap are no neighbours", "[scene][property]") {
    Scene scene = plain_scene();
    Bench bench =
        outline_bench(scene, "U", {{0, 0}, {5, 0}, {5, 2}, {3, 2}, {3, 1}, {1, 1}, {1, 2}, {0, 2}});
    bench.spot_pitch_m = 1.0;
    scene.benches = {bench};
    const auto spots = spots_of(scene);
    REQUIRE(spots.size() == 5 + 1 + 2);
    CHECK(spots[5].column == 0);
    CHECK(spots[6].column == 2);
    CHECK(spots[7].column == 3);
}

TEST_CASE("Random rectangular benches: count, order, pitch, all inside", "[scene][property]") {
    Dice dice(4);
    for (int round = 0; round < 100; ++round) {
        Scene scene = plain_scene();
        scene.site.plan_up_bearing = Angle::degrees(dice.between(0.0, 360.0));
        scene.ground = {Angle::degrees(dice.between(0.0, 20.0)),
                        Angle::degrees(dice.between(0.0, 360.0))};
        const double length_m = dice.between(0.2, 6.0);
        const double depth_m = dice.between(0.15, 1.2);
        const Vec2 corner{dice.between(-20, 20), dice.between(-20, 20)};
        Bench bench = rectangle_bench(scene, "R", corner, dice.between(0, 360), length_m, depth_m);
        bench.spot_pitch_m = dice.between(0.1, 0.8);
        scene.benches = {bench};
        const double pitch_m = bench.spot_pitch_m;
        const int columns = std::max(1, static_cast<int>(length_m / pitch_m));
        const int rows = std::max(1, static_cast<int>(depth_m / pitch_m));
        const auto spots = spots_of(scene);
        CAPTURE(round, length_m, depth_m, pitch_m);
        REQUIRE(spots.size() == static_cast<std::size_t>(columns * rows));
        const double ground_m = PlanFrame(scene).ground_z(corner);
        for (std::size_t i = 0; i < spots.size(); ++i) {
            CHECK(spots[i].number == static_cast<int>(i) + 1);
            CHECK(is_inside(bench.outline, spots[i].position));
            CHECK(spots[i].top_z_m == within(ground_m + 0.8, 1e-12));
            if (i == 0 || spots[i].row != spots[i - 1].row) continue;
            CHECK(length(spots[i].position - spots[i - 1].position) ==
                  Approx(pitch_m).epsilon(1e-9));
        }
    }
}

TEST_CASE("Random outlines: cells lie inside and do not overlap", "[scene][property]") {
    Dice dice(5);
    for (int round = 0; round < 60; ++round) {
        Scene scene = plain_scene();
        // A star-shaped outline about a point never crosses itself.
        std::vector<Vec2> outline;
        const int corners = dice.whole(3, 9);
        for (int i = 0; i < corners; ++i) {
            const double turn = 2.0 * M_PI * (i + dice.between(0.0, 0.7)) / corners;
            const double reach = dice.between(0.5, 2.0);
            outline.push_back({reach * std::cos(turn), reach * std::sin(turn)});
        }
        Bench bench = outline_bench(scene, "P", outline);
        bench.spot_pitch_m = dice.between(0.15, 0.5);
        scene.benches = {bench};
        const auto spots = spots_of(scene);
        const Vec2 along = PlanFrame(scene).plan_direction(bench.bearing);
        std::vector<std::vector<Vec2>> cells;
        for (const Spot& spot : spots) {
            cells.push_back(rectangle_about(spot.position, along, 0.99 * spot.length_m,
                                            0.99 * std::max(0.0, spot.depth_m - 0.001)));
            for (const Vec2 corner : cells.back()) CHECK(is_inside(outline, corner));
            for (std::size_t i = 0; i + 1 < cells.size(); ++i) {
                CHECK(overlap_depth(cells[i], cells.back()) == within(0.0, 1e-12));
            }
        }
    }
}

TEST_CASE("An id is found however its accents are typed", "[scene][property]") {
    Scene scene = plain_scene();
    scene.benches = {rectangle_bench(scene, "Allée", {0, 0}, 90.0, 1.0, 0.3)};
    const auto spots = spots_of(scene);
    CHECK(find_spot(spots,
                    "Alle\xCC\x81"
                    "e-2") == 1U);
}

TEST_CASE("Load limits name the bench and the tier", "[scene][property]") {
    Scene scene = plain_scene();
    scene.benches = {rectangle_bench(scene, "A", {0, 0}, 90.0, 1.0, 0.3, {0.5, 0.8})};
    scene.benches[0].tiers[1].max_load_kg = 60.0;
    PostStand stand;
    stand.label = {"P", "Post", ""};
    stand.max_load_kg = 40.0;
    scene.post_stands = {stand};
    const auto limits = load_limits(scene);
    REQUIRE(limits.size() == 2);
    CHECK(limits[0].holder_id == "A");
    CHECK(limits[0].tier == 2);
    CHECK(limits[0].max_load_kg == within(60.0, 1e-12));
    CHECK(limits[1].holder_id == "P");
}

}  // namespace sunfleck::scene
