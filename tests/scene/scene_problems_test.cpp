#include "sunfleck/scene/scene_file.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace sunfleck;
using namespace sunfleck::scene;

namespace {

const std::string sound = R"({
"format": "sunfleck-scene", "version": 1,
"site": {"latitude_deg": 51.5, "longitude_deg": -0.3, "time_zone": "Europe/London"},
"benches": [
{"id": "A", "x_m": 1, "y_m": 2, "bearing_deg": 90, "length_m": 3, "depth_m": 0.6, "height_m": 0.8}
],
"cloths": [
{"id": "N", "corners_m": [[0,0,2],[3,0,2],[3,2,2]], "shade_factor_percent": 40}
],
"pots": [
{"id": "M1", "species": "Acer palmatum", "spot": "A-3"}
]
})";

/// The scene with the first `from` in it replaced.
std::string changed(const std::string& from, const std::string& to) {
    std::string text = sound;
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

Problems problems_of(const std::string& text) {
    const auto file = SceneFile::parse(text, "garden.json");
    return file ? Problems{} : file.error();
}

struct WrongScene {
    const char* from;
    const char* to;
    const char* code;
    int line;
    int column;
    const char* pointer;
    const char* message_part;
    const char* mend_part;
};

}  // namespace

TEST_CASE("the scene that the cases below spoil is sound", "[scene][property]") {
    CHECK(problems_of(sound).empty());
}

TEST_CASE("each fault is told with its place, what is so and the mend", "[scene][property]") {
    const std::vector<WrongScene> cases{
        {R"("height_m": 0.8)", R"("height_m": 80)", "out_of_range", 5, 95, "/benches/0/height_m",
         "The height of the top is 80 m.", "Did you mean 0.8 m? It may be 0 to 3 m."},
        {R"("height_m": 0.8)", R"("height_m": 750)", "out_of_range", 5, 95, "/benches/0/height_m",
         "is 750 m", "Did you mean 0.75 m?"},
        {R"("height_m": 0.8)", R"("height": 0.8)", "unit_missing", 5, 83, "/benches/0/height",
         "does not say its unit", "Write \"height_m\", in metres."},
        {R"("height_m": 0.8)", R"("height_cm": 80)", "unit_wrong", 5, 83, "/benches/0/height_cm",
         "another unit", "Write \"height_m\", in metres: 0.8."},
        {R"("height_m": 0.8)", R"("height_m": "80 cm")", "wrong_type", 5, 95, "/benches/0/height_m",
         "must be a number, not text", "without quotes and unit: 0.8."},
        {R"("height_m": 0.8)", R"("height_m": null)", "wrong_type", 5, 95, "/benches/0/height_m",
         "not null", "Leave the key out"},
        {R"("height_m": 0.8)", R"("hieght_m": 0.8)", "unknown_key", 5, 83, "/benches/0/hieght_m",
         "has no key \"hieght_m\"", "Did you mean \"height_m\"?"},
        {R"(, "height_m": 0.8)", "", "key_missing", 5, 1, "/benches/0",
         "neither height_m nor tiers", "Add one"},
        {R"("x_m": 1, "y_m": 2)", R"("x_m": 1)", "key_missing", 5, 1, "/benches/0",
         "has no \"y_m\"", "Add it: the y, in metres."},
        {R"("bearing_deg": 90)", R"("bearing_deg": 90, "bearing_plan_deg": 0)", "keys_exclude", 5,
         52, "/benches/0/bearing_plan_deg", "can't stand together", "Keep one"},
        {R"("bearing_deg": 90)", R"("bearing_deg": -10)", "out_of_range", 5, 48,
         "/benches/0/bearing_deg", "is -10°.", "Did you mean 350°?"},
        {R"("bearing_deg": 90)", R"("bearing_magnetic_deg": 90)", "declination_missing", 5, 57,
         "/benches/0/bearing_magnetic_deg", "no magnetic declination", "magnetic_declination_deg"},
        {R"("latitude_deg": 51.5)", R"("latitude_deg": 515)", "out_of_range", 3, 26,
         "/site/latitude_deg", "is 515°", "It may be -90 to 90°."},
        {R"("time_zone": "Europe/London")", R"("time_zone": "Europe/Lodnon")", "unknown_time_zone",
         3, 68, "/site/time_zone", "no time zone", "Europe/London"},
        {R"("site")", R"("sight")", "key_missing", 1, 1, "", "The scene has no \"site\"", "Add it"},
        {R"(40}
],
"pots")",
         R"(0.4}
],
"pots")",
         "out_of_range", 8, 77, "/cloths/0/shade_factor_percent", "is 0.4 %", "Did you mean 40 %?"},
        {R"([3,2,2]])", R"([3,2]])", "wrong_count", 8, 43, "/cloths/0/corners_m/2",
         "holds 2 values", "Write [x, y, height]."},
        {R"([3,2,2]])", R"([3,2,220]])", "out_of_range", 8, 48, "/cloths/0/corners_m/2/2",
         "The height is 220 m.", "Did you mean 2.2 m?"},
        {R"([[0,0,2],[3,0,2],[3,2,2]])", R"([[0,0,2],[3,0,2]])", "wrong_count", 8, 26,
         "/cloths/0/corners_m", "holds 2 values", "3 to 4"},
        {R"("id": "A")", R"("id": "A 1")", "bad_text", 5, 8, "/benches/0/id", "is \"A 1\"",
         "letters, digits or _"},
        {R"("id": "A")", "\"id\": \"A\xE2\x82\xAC\"", "id_letters", 5, 8, "/benches/0/id",
         "other than letters", "name takes anything"},
        {R"("id": "N")", R"("id": "A")", "id_twice", 8, 8, "/cloths/0/id", "A", "id"},
        {R"("A-3")", R"("A-33")", "no_such_spot", 11, 50, "/pots/0/spot", "A-33", ""},
        {R"("A-3")", R"("A-3", "state": {"is": "repoted", "until": "2026-05-01"})", "not_a_choice",
         11, 73, "/pots/0/state/is", "is \"repoted\"", "Did you mean repotted?"},
        {R"("A-3")", R"("A-3", "state": {"is": "sick", "until": "2026-02-29"})", "no_such_day", 11,
         90, "/pots/0/state/until", "no 2026-02-29", "29 February"},
        {R"("A-3")", R"("A-3", "count": 1.5)", "not_whole", 11, 66, "/pots/0/count", "is 1.5",
         "whole number"},
        {R"("A-3")", R"("A-3", "pinned": "yes")", "wrong_type", 11, 67, "/pots/0/pinned",
         "must be true or false", "without quotes"},
        {R"("pots": [)", R"("meshes": [{"id": "X", "file": "../up.obj", "x_m": 0, "y_m": 0}],
"pots": [)",
         "path_outside", 10, 32, "/meshes/0/file", "not in the scene's folder", "beside"},
        {R"("pots": [)", R"("meshes": [{"id": "X", "file": "/etc/up.obj", "x_m": 0, "y_m": 0}],
"pots": [)",
         "path_outside", 10, 32, "/meshes/0/file", "not in the scene's folder", "beside"},
        {R"("pots": [)", R"("meshes": [{"id": "X", "file": "a/none.obj", "x_m": 0, "y_m": 0}],
"pots": [)",
         "mesh_missing", 10, 32, "/meshes/0/file", "no such file", "Check the name"},
        {R"("pots": [)", R"("seasons": {"name": "hot", "first": "06-01"},
"pots": [)",
         "wrong_type", 10, 12, "/seasons", "must be a list", "[ ]"},
        {R"("version": 1)", R"("version": 2)", "newer_version", 2, 40, "/version", "newer program",
         "newer"},
        {R"("version": 1)", R"("version": 0)", "out_of_range", 2, 40, "/version", "is 0", "1 to 1"},
        {R"("sunfleck-scene")", R"("other")", "not_a_scene", 2, 11, "/format", "not a scene",
         "sunfleck-scene"},
        {R"("pots")", R"("benches")", "key_twice", 10, 1, "/benches", "written twice", "Keep one"},
    };
    for (const auto& wrong : cases) {
        CAPTURE(wrong.from, wrong.to);
        const Problems problems = problems_of(changed(wrong.from, wrong.to));
        const auto found = std::ranges::find(problems, std::string(wrong.code), &Problem::code);
        for (const Problem& problem : problems)
            UNSCOPED_INFO(problem.code << ' ' << to_text(problem));
        REQUIRE(found != problems.end());
        CHECK(found->file == "garden.json");
        CHECK(found->line == wrong.line);
        CHECK(found->column == wrong.column);
        CHECK(found->pointer == wrong.pointer);
        CHECK_THAT(found->message, Catch::Contains(wrong.message_part));
        CHECK_THAT(found->mend, Catch::Contains(wrong.mend_part));
    }
}

TEST_CASE("all faults of a file are told at once, in its order", "[scene][property]") {
    std::string text = changed(R"("latitude_deg")", R"("lattitude_deg")");
    const auto spoil = [&](const std::string& from, const std::string& to) {
        const auto at = text.find(from);
        REQUIRE(at != std::string::npos);
        text.replace(at, from.size(), to);
    };
    spoil(R"("depth_m": 0.6)", R"("depth_m": true)");
    spoil(R"("shade_factor_percent": 40)", R"("shade_factor_percent": 400)");
    spoil(R"("id": "M1")", R"("id": "M1", "colour": "red")");
    const Problems problems = problems_of(text);
    std::vector<std::string> codes;
    for (const Problem& problem : problems) codes.push_back(problem.code);
    CHECK(codes ==
          std::vector<std::string>{"unknown_key", "wrong_type", "out_of_range", "unknown_key"});
    // A misspelt key that must stand is not called missing as well.
    CHECK(problems[0].nearest == "latitude_deg");
}

TEST_CASE("faults of meaning are told beside faults of form", "[scene][property]") {
    std::string text = changed(R"("id": "N")", R"("id": "A")");
    text.replace(text.find("40}"), 3, "40, \"up\": 3}");
    // The net that can't be read is left out, so its second use of the id can't be seen; the
    // spot that is missing can.
    text.replace(text.find("\"A-3\""), 5, "\"A-99\"");
    std::vector<std::string> codes;
    for (const Problem& problem : problems_of(text)) codes.push_back(problem.code);
    CHECK(codes == std::vector<std::string>{"wrong_type", "no_such_spot"});
    // A bench that can't be read makes no pot homeless.
    text.replace(text.find("0.8}"), 4, "\"high\"}");
    codes.clear();
    for (const Problem& problem : problems_of(text)) codes.push_back(problem.code);
    CHECK(codes == std::vector<std::string>{"wrong_type", "wrong_type"});
}

TEST_CASE("a scene of a newer version is refused by one clear sentence", "[scene][property]") {
    std::string text = changed(R"("version": 1)", R"("version": 3, "colour_of_sky": "blue")");
    const Problems problems = problems_of(text);
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].message ==
          "This scene was written by a newer program: its version is 3, and this program reads "
          "up to 1.");
}

TEST_CASE("the kept scene of version 1 still means what it meant", "[scene][property]") {
    const auto file =
        SceneFile::read(std::string(SUNFLECK_TEST_DATA) + "/versions/scene_version_1.json");
    REQUIRE(file);
    const Scene& scene = file->scene();
    CHECK(scene.version == 1);
    CHECK(scene.site.name == "Kept yard");
    CHECK(scene.site.place.latitude.in_degrees() == Approx(-37.8));
    CHECK(scene.ground.slope.in_degrees() == Approx(2));
    REQUIRE(scene.benches.size() == 1);
    CHECK(scene.benches[0].bearing.in_degrees() == Approx(80));
    CHECK(scene.benches[0].outline[1].x == Approx(0.5 + 1.8));
    CHECK(scene.benches[0].outline[1].y == Approx(1.25));
    CHECK(scene.benches[0].tiers.at(0).height_m == Approx(0.9));
    CHECK(scene.walls.at(0).porosity == Approx(0.2));
    CHECK(scene.cloths.at(0).up.at(0).contains(make_date(2027, 1, 1)));
    CHECK(scene.pots.at(0).spot == "A-2");
    CHECK(scene.pots.at(1).count == 2);
    CHECK(scene.watering_rounds.at(0).seconds_of_day == 6 * 3600 + 45 * 60);
    CHECK(scene.seasons.size() == 6);
}

TEST_CASE("of a file that is wrong everywhere the first thousand problems are told",
          "[scene][property]") {
    std::string pots;
    for (int i = 0; i < 5000; ++i) pots += R"({"identity": 1, "spott": []},)";
    const Problems problems = problems_of(changed(R"({"id": "M1")", pots + R"({"id": "M1")"));
    REQUIRE(problems.size() == 1000);
    CHECK(problems.front().code == "key_missing");
    CHECK(problems.back().code == "more_problems");
    CHECK(problems.back().line == 11);
}

TEST_CASE("a list that is too long is refused without reading its items", "[scene][property]") {
    std::string seasons = R"("seasons": [)";
    for (int i = 0; i < 30; ++i) seasons += R"({"name": "s", "first": "no day"},)";
    seasons += R"({"name": "s", "first": 4}], "pots")";
    const Problems problems = problems_of(changed(R"("pots")", seasons));
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].code == "wrong_count");
    CHECK(problems[0].message == "The list of seasons holds 31 values.");
}
