#include "sunfleck/scene/new_scene.h"

#include "base/within.h"
#include "scene/garden_maker.h"
#include "sunfleck/scene/scene_file.h"
#include "sunfleck/scene/spots.h"

#include <catch2/catch.hpp>

using sunfleck::test::within;

namespace sunfleck::scene {
namespace {

void check_answer(std::optional<double> got, std::optional<double> expected) {
    REQUIRE(got.has_value() == expected.has_value());
    if (expected) CHECK(*got == within(*expected, 1e-9));
}

}  // namespace

TEST_CASE("Random first scenes read without a word", "[scene][property]") {
    Dice dice(12);
    for (int round = 0; round < 100; ++round) {
        FirstGarden garden;
        garden.name = "Garden \"" + std::to_string(round) + "\" é";
        garden.latitude_deg = dice.between(35.0, 60.0);
        garden.longitude_deg = dice.between(0.0, 20.0);
        garden.time_zone = "Europe/Berlin";
        garden.plan_up_bearing_deg = dice.between(0.0, 360.0);
        garden.bench_length_m = dice.between(0.1, 6.0);
        garden.bench_depth_m = dice.between(0.1, 1.2);
        garden.bench_height_m = dice.between(0.3, 1.2);
        garden.bench_bearing_deg = dice.between(0.0, 360.0);
        garden.has_examples = round % 2 == 0;
        const std::string text = first_scene_text(garden);
        const auto file = SceneFile::parse(text, "first.json");
        CAPTURE(text);
        CAPTURE(file ? std::string() : to_text(file.error().front()));
        REQUIRE(file);
        for (const Problem& warning : file->warnings()) FAIL_CHECK(to_text(warning));
        const Scene& scene = file->scene();
        CHECK(scene.site.name == garden.name);
        CHECK(scene.benches[0].length_m == Approx(garden.bench_length_m));
        CHECK(scene.benches[0].bearing.in_degrees() == Approx(garden.bench_bearing_deg));
        CHECK(scene.walls.size() == (garden.has_examples ? 1U : 0U));
        if (!garden.has_examples) CHECK(scene.pots.empty());
        CHECK(file->text() == text);
    }
}

TEST_CASE("The example wall stands behind the bench", "[scene][property]") {
    FirstGarden garden;
    garden.latitude_deg = 51.5;
    garden.time_zone = "Europe/London";
    garden.plan_up_bearing_deg = 90.0;
    garden.bench_bearing_deg = 90.0;  // its back lies to the north
    const Scene scene = SceneFile::parse(first_scene_text(garden), "first.json")->scene();
    const PlanFrame frame(scene);
    const double back_north = frame.to_world(scene.benches[0].outline[2]).y;
    for (const Vec2 end : scene.walls[0].line) {
        CHECK(frame.to_world(end).y == Approx(back_north + 1.0));
    }
    REQUIRE(scene.pots.size() == 3);
    CHECK(scene.pots[0].spot == "A-1");
}

TEST_CASE("Lengths are understood as people say them", "[scene][property]") {
    // The international foot is 0.3048 m, exactly.
    check_answer(spoken_length_m("2.4"), 2.4);
    check_answer(spoken_length_m(" 2,4 m "), 2.4);
    check_answer(spoken_length_m("240 cm"), 2.4);
    check_answer(spoken_length_m("2400mm"), 2.4);
    check_answer(spoken_length_m("8 ft"), 2.4384);
    check_answer(spoken_length_m("96 in"), 2.4384);
    for (const char* odd : {"", "long", "2.4 kg", "2 4", "m", "1e999", "ft"}) {
        CAPTURE(odd);
        check_answer(spoken_length_m(odd), std::nullopt);
    }
}

TEST_CASE("Coordinates are understood as people write them", "[scene][property]") {
    check_answer(spoken_coordinate_deg("51.5"), 51.5);
    check_answer(spoken_coordinate_deg("-0,3"), -0.3);
    check_answer(spoken_coordinate_deg("0.3 W"), -0.3);
    check_answer(spoken_coordinate_deg("S 37.8"), -37.8);
    check_answer(spoken_coordinate_deg("51°30'36\"N"), 51.51);
    check_answer(spoken_coordinate_deg("51° 30′ 36″ s"), -51.51);
    check_answer(spoken_coordinate_deg("-51 30"), -51.5);
    check_answer(spoken_coordinate_deg("145 E"), 145.0);
    for (const char* odd : {"", "N", "181", "51 75", "-0.3 W", "51.5 N 0.3 W", "here", "1 2 3 4"}) {
        CAPTURE(odd);
        check_answer(spoken_coordinate_deg(odd), std::nullopt);
    }
}

TEST_CASE("Bearings are understood in degrees and in words", "[scene][property]") {
    check_answer(spoken_bearing_deg("135"), 135.0);
    check_answer(spoken_bearing_deg("12,5°"), 12.5);
    check_answer(spoken_bearing_deg("North"), 0.0);
    check_answer(spoken_bearing_deg("SE"), 135.0);
    check_answer(spoken_bearing_deg("south-east"), 135.0);
    check_answer(spoken_bearing_deg("southwest"), 225.0);
    check_answer(spoken_bearing_deg("north north-east"), 22.5);
    check_answer(spoken_bearing_deg("WNW"), 292.5);
    for (const char* odd : {"", "up", "-5", "361", "north-south", "es"}) {
        CAPTURE(odd);
        check_answer(spoken_bearing_deg(odd), std::nullopt);
    }
}

}  // namespace sunfleck::scene
