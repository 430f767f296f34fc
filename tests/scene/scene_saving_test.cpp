#include "base/scratch_folder.h"
#include "sunfleck/base/text_file.h"
#include "sunfleck/scene/pots_csv.h"
#include "sunfleck/scene/scene_file.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <stdlib.h>

#include <filesystem>
#include <map>
#include <string>
#include <vector>

using namespace sunfleck;
using namespace sunfleck::scene;

namespace {

/// A scene written by somebody with a hand of their own.
const std::string odd =
    "\xEF\xBB\xBF{\r\n\t\"version\" :1.0,\"format\":\"sunfleck-scene\",\r\n"
    "\"site\":{\"longitude_deg\":-3.0e-1 , \"latitude_deg\":5.150E+1,\r\n\r\n"
    "   \"time_zone\":\"Europe\\/London\"},\"note\":\"caf\\u00e9 \xE6\x9D\xBE\",\r\n"
    "\"benches\":[ {\"id\":\"A\",\"outline_m\":[[0,0.00],[3.10,0],[3.10,.6E0],[0,0.60]],"
    "\"height_m\":0.80}],\r\n"
    "\"pots\":[{ \"id\":\"M1\",\"spot\":\"A-1\" , \"soil_l\":0.380,\"species\":\"Acer "
    "palmatum\"},\r\n"
    "  {\"species\":\"Acer palmatum\",\"id\":\"M2\"} ,\r\n"
    "  {\"id\":\"M3\",\"species\":\"Acer palmatum\",\"spot\":\"\\u0041-2\"}]}\r\n\r\n";

SceneFile parsed(const std::string& text) {
    auto file = SceneFile::parse(text, "odd.json");
    if (!file) {
        for (const Problem& problem : file.error()) UNSCOPED_INFO(to_text(problem));
    }
    REQUIRE(file);
    return *file;
}

std::string odd_scene() {
    std::string text = odd;
    const auto at = text.find(".6E0");
    return text.replace(at, 4, "6E-1");
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("an unedited scene keeps every byte, whatever its hand", "[scene][property]") {
    const std::string text = odd_scene();
    CHECK(parsed(text).text() == text);
}

TEST_CASE("demo scenes keep every byte", "[scene][property]") {
    int count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(SUNFLECK_SCENES)) {
        const std::string name = entry.path().filename().string();
        if (!name.ends_with(".json") || name.ends_with(".schema.json")) continue;
        CAPTURE(name);
        const auto file = SceneFile::read(entry.path());
        REQUIRE(file);
        CHECK(file->text() == read_text_file(entry.path()));
        std::vector<std::string> spots;
        for (const Pot& pot : file->scene().pots) spots.push_back(pot.spot);
        CHECK(file->with_pots_at(spots).text() == read_text_file(entry.path()));
        ++count;
    }
    CHECK(count >= 3);
}

TEST_CASE("moving pots changes the bytes of their spots only", "[scene][property]") {
    const SceneFile file = parsed(odd_scene());
    CHECK(file.with_pots_at({"A-1", "", "A-2"}).text() == odd_scene());
    const SceneFile moved = file.with_pots_at({"A-3", "A-1", ""});
    std::string expected = replaced(odd_scene(), "\"spot\":\"A-1\"", "\"spot\":\"A-3\"");
    expected = replaced(expected, "{\"species\":\"Acer palmatum\",\"id\"",
                        "{\"species\":\"Acer palmatum\",\"spot\":\"A-1\",\"id\"");
    expected = replaced(expected, ",\"spot\":\"\\u0041-2\"", "");
    CHECK(moved.text() == expected);
    CHECK(moved.scene().pots[0].spot == "A-3");
    CHECK(moved.scene().pots[2].spot.empty());
    // Read again, it is the scene that was saved; moved back, it is what it was but for order.
    const SceneFile again = parsed(moved.text());
    CHECK(again.scene().pots[1].spot == "A-1");
    CHECK(again.text() == moved.text());
    CHECK(parsed(again.with_pots_at({"A-1", "", "A-2"}).text()).scene().pots[2].spot == "A-2");
}

TEST_CASE("a scene saved to a file is read back as it was", "[scene][property]") {
    const auto path = std::filesystem::temp_directory_path() / "sunfleck_saving_test.json";
    const SceneFile file = parsed(odd_scene());
    REQUIRE(file.save(path));
    CHECK(read_text_file(path) == file.text());
    const auto again = SceneFile::read(path);
    REQUIRE(again);
    CHECK(again->text() == file.text());
    std::filesystem::remove(path);
    CHECK_FALSE(file.save(path / "below" / "nothing.json"));
}

namespace {

void check_same_pots(const std::vector<Pot>& one, const std::vector<Pot>& other) {
    REQUIRE(one.size() == other.size());
    for (std::size_t i = 0; i < one.size(); ++i) {
        const Pot& a = one[i];
        const Pot& b = other[i];
        CAPTURE(a.label.id);
        CHECK(a.label.id == b.label.id);
        CHECK(a.label.name == b.label.name);
        CHECK(a.spot == b.spot);
        CHECK(a.pot_length_m == Approx(b.pot_length_m).epsilon(1e-12));
        CHECK(a.soil_l == Approx(b.soil_l).epsilon(1e-12));
        CHECK(a.weight_kg == Approx(b.weight_kg).epsilon(1e-12));
        CHECK(a.crown_height_m == Approx(b.crown_height_m).epsilon(1e-12));
        CHECK(a.colour == b.colour);
        CHECK(a.substrate == b.substrate);
        CHECK(a.own_wants == b.own_wants);
        CHECK(a.wants == b.wants);
        CHECK(a.pinned == b.pinned);
        CHECK(a.not_on == b.not_on);
        CHECK(a.receiver_height_m == b.receiver_height_m);
        CHECK(a.state.has_value() == b.state.has_value());
        if (a.state && b.state) CHECK(a.state->until == b.state->until);
        CHECK(a.count == b.count);
    }
}

}  // namespace

TEST_CASE("pots of a table take the place of the scene's own, and can be saved into it",
          "[scene][property]") {
    const sunfleck::test::ScratchFolder folder;
    auto file = SceneFile::read(std::string(SUNFLECK_TEST_DATA) + "/every_key.json");
    REQUIRE(file);
    const std::vector<Pot> own = file->scene().pots;
    const auto csv = folder.with("pots.csv", pots_csv_text(own));
    REQUIRE(file->use_pots_csv(csv));
    check_same_pots(file->scene().pots, own);

    const SceneFile moved = file->with_pots_at({"B-1", "P1", "A-2", ""});
    const auto again = SceneFile::parse(moved.text(), file->scene().file);
    REQUIRE(again);
    CHECK(again->scene().pots[0].spot == "B-1");
    CHECK(again->scene().pots[3].spot.empty());
    check_same_pots(again->scene().pots, moved.scene().pots);
    // All but the pots kept its text.
    const auto whole = read_text_file(file->scene().file);
    REQUIRE(whole);
    const auto before = whole->find("\"pots\": [");
    CHECK(moved.text().substr(0, before) == whole->substr(0, before));
    const auto after = whole->substr(whole->find("\"seasons\""));
    CHECK(moved.text().ends_with(after));
}

TEST_CASE("what a table of pots cannot mean is told by its lines", "[scene][property]") {
    const sunfleck::test::ScratchFolder folder;
    auto file = SceneFile::read(std::string(SUNFLECK_TEST_DATA) + "/every_key.json");
    REQUIRE(file);
    const auto csv = folder.with("pots.csv",
                                 "id,species,spot\nM1,Acer palmatum,A-1\nM2,Acer palmatum,A-99\n"
                                 "A,Acer palmatum,\n");
    const auto used = file->use_pots_csv(csv);
    REQUIRE_FALSE(used);
    REQUIRE(used.error().size() >= 2);
    std::map<std::string, int> line_of;
    for (const Problem& problem : used.error()) {
        CHECK(problem.file == csv.string());
        line_of[problem.code] = problem.line;
    }
    CHECK(line_of["no_such_spot"] == 3);
    CHECK(line_of["id_twice"] == 4);
    // The scene is as it was.
    CHECK(file->scene().pots[0].label.id == "M07");
    CHECK_FALSE(file->use_pots_csv(folder.with("x.csv", "").parent_path() / "none.csv"));
}
