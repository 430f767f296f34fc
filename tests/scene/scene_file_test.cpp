#include "sunfleck/scene/scene_file.h"

#include "sunfleck/base/text_file.h"
#include "sunfleck/scene/spots.h"

#include <catch2/catch.hpp>

#include <string>

using namespace sunfleck;
using namespace sunfleck::scene;

namespace {

const std::string every_key = std::string(SUNFLECK_TEST_DATA) + "/every_key.json";

SceneFile read_every_key() {
    auto file = SceneFile::read(every_key);
    REQUIRE(file);
    return *file;
}

Angle degrees(double value) {
    return Angle::degrees(value);
}

}  // namespace

TEST_CASE("lengths of every unit become metres and shares fractions", "[scene][property]") {
    const Scene scene = read_every_key().scene();
    const Bench& bench = scene.benches[0];
    CHECK(bench.thickness_m == Approx(0.03));
    CHECK(bench.board_width_m == Approx(0.09));
    CHECK(bench.tiers.at(0).height_m == Approx(0.8));
    CHECK(bench.tiers.at(0).max_load_kg == 150.0);
    CHECK(scene.post_stands[0].top_side_m == Approx(0.35));
    CHECK(scene.walls[0].thickness_m == Approx(0.22));
    CHECK(scene.walls[1].porosity == Approx(0.10));
    CHECK(scene.cloths[0].sag_fraction == Approx(0.03));
    CHECK(scene.cloths[0].shade_factor == Approx(0.40));
    CHECK(scene.lath_panels[0].slat_width_m == Approx(0.04));
    CHECK(scene.trees[0].trunk_diameter_m == Approx(0.25));
    CHECK(scene.trees[0].transmission_in_leaf == Approx(0.12));
    CHECK(scene.pots[0].pot_length_m == Approx(0.11));
    CHECK(scene.pots[0].soil_l == Approx(0.38));
    CHECK(scene.pots[0].own_wants.drought_tolerance == Approx(2.0));
    CHECK(scene.site.place.latitude.in_degrees() == Approx(51.5));
    CHECK(scene.site.normals.rain_days.size() == 12);
}

TEST_CASE("the three kinds of bearing become true bearings", "[scene][property]") {
    // The plan's up is 12 degrees east of north, and the needle points 0.8 degrees east of it.
    const Scene scene = read_every_key().scene();
    CHECK(scene.benches[0].bearing.in_degrees() == Approx(102.0));
    CHECK(scene.benches[1].bearing.in_degrees() == Approx(90.0));
    CHECK(scene.benches[3].bearing.in_degrees() == Approx(102.0));
    // An outline's front edge along the plan's x axis points to 90 degrees of the plan.
    CHECK(scene.benches[2].bearing.in_degrees() == Approx(102.0));
    CHECK(scene.buildings[2].ridge_bearing.in_degrees() == Approx(102.0));
    CHECK(scene.buildings[3].ridge_bearing.in_degrees() == Approx(102.0));
}

TEST_CASE("a bench lies to the left of its front edge", "[scene][property]") {
    const Scene scene = read_every_key().scene();
    const auto& outline = scene.benches[0].outline;
    REQUIRE(outline.size() == 4);
    const std::vector<Vec2> expected{{1, 2}, {4, 2}, {4, 2.6}, {1, 2.6}};
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(outline[i].x == Approx(expected[i].x));
        CHECK(outline[i].y == Approx(expected[i].y));
    }
    CHECK(scene.benches[2].depth_m == Approx(1.0));
    CHECK(scene.benches[2].length_m == Approx(2.0));
    CHECK_FALSE(scene.benches[2].is_rectangle);
}

TEST_CASE("tiers are taken from the lowest, however they are listed", "[scene][property]") {
    const auto file = SceneFile::parse(R"({"format": "sunfleck-scene", "version": 1,
        "site": {"latitude_deg": 51.5, "longitude_deg": -0.3, "time_zone": "Europe/London"},
        "benches": [{"id": "A", "x_m": 0, "y_m": 0, "bearing_deg": 90, "length_m": 2,
            "depth_m": 0.9, "tiers": [{"height_m": 1.1, "set_back_m": 0.6, "depth_m": 0.3},
            {"height_m": 0.5, "depth_m": 0.3, "max_load_kg": 60},
            {"height_m": 0.8, "set_back_m": 0.3, "depth_m": 0.3}]}]})",
                                       "tiers.json");
    REQUIRE(file);
    const auto& tiers = file->scene().benches[0].tiers;
    REQUIRE(tiers.size() == 3);
    CHECK(tiers[0].height_m == Approx(0.5));
    CHECK(tiers[0].max_load_kg.value() == Approx(60.0));
    CHECK(tiers[1].height_m == Approx(0.8));
    CHECK(tiers[2].height_m == Approx(1.1));
}

TEST_CASE("heights are above the ground or absolute, as the file says", "[scene][property]") {
    const Scene scene = read_every_key().scene();
    CHECK_FALSE(scene.cloths[0].corners[0].height.is_absolute);
    CHECK(scene.cloths[1].corners[2].height.is_absolute);
    CHECK(scene.lath_panels[1].height.is_absolute);
    CHECK(scene.lath_panels[1].height.value_m == Approx(2.5));
    CHECK(scene.benches[0].base_z_m == 0.0);
    CHECK_FALSE(scene.benches[1].base_z_m);
    // A 3 degree slope falls towards 40 degrees; the mesh's plan point (12, 6) lies, with the plan
    // turned by 12 degrees, at 12 sin(102) + 6 sin(12) east, 12 cos(102) + 6 cos(12) north.
    const Angle turn = degrees(12);
    const double east = 12 * cos(turn) + 6 * sin(turn);
    const double north = -12 * sin(turn) + 6 * cos(turn);
    const double ground = -(east * sin(degrees(40)) + north * cos(degrees(40))) * tan(degrees(3));
    CHECK(scene.meshes[1].z_m == Approx(0.5 - ground));
}

TEST_CASE("what is left out has its usual value", "[scene][property]") {
    const Scene scene = read_every_key().scene();
    CHECK(scene.benches[2].label.name == "C");
    CHECK(scene.benches[2].label.pointer == "/benches/2");
    CHECK(scene.benches[3].has_legs);
    CHECK(scene.benches[3].spot_pitch_m == Approx(0.30));
    CHECK(scene.trees[1].crown_width_across_m == Approx(2.0));
    CHECK(scene.trees[1].trunk_diameter_m == Approx(6.0 / 40.0));
    CHECK(scene.seasons.front().name == "growing");
    CHECK(scene.file == every_key);
}

TEST_CASE("a scene saved unedited is the same text", "[scene][property]") {
    CHECK(read_every_key().text() == read_text_file(every_key));
}
