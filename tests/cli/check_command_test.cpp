#include "cli/run_program.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <string>

using namespace sunfleck::cli_test;
using nlohmann::json;

namespace {

const std::string every_key = std::string(SUNFLECK_TEST_DATA) + "/every_key.json";

const std::string two_faults = R"({
"format": "sunfleck-scene", "version": 1,
"site": {"name": "Yard", "latitude_deg": 51.5, "longitude_deg": -0.3,
  "time_zone": "Europe/London"},
"benches": [{"id": "A", "x_m": 0, "y_m": 0, "bearing_deg": 90, "length_m": 3, "depth_m": 0.6,
  "height_m": 80}],
"pots": [{"id": "M1", "specis": "Acer palmatum"}]
})";

}  // namespace

TEST_CASE("check counts what a sound scene holds", "[cli]") {
    const Answer answer = run_program({"check", every_key, "--json"});
    REQUIRE(answer.code == 0);
    const json result = json::parse(answer.out);
    CHECK(result["command"] == "check");
    CHECK(result["valid"] == true);
    CHECK(result["errors"].empty());
    CHECK(result["scene"]["name"] == "Fern Yard");
    CHECK(result["year"] == 2026);
    CHECK(result["time_zone"] == "Europe/London");
    CHECK(result["counts"]["benches"] == 4);
    CHECK(result["counts"]["post_stands"] == 3);
    CHECK(result["counts"]["walls"] == 1);
    CHECK(result["counts"]["fences"] == 1);
    CHECK(result["counts"]["pots"] == 4);
    CHECK(result["counts"]["meshes"] == 3);
    CHECK(run_program({"check", every_key}).out.find("Fern Yard is sound: 4 benches") == 0);
}

TEST_CASE("check tells all faults of a scene and leaves by exit code 3", "[cli]") {
    const ScratchFolder scratch;
    const std::string path = scratch.path("yard.json");
    write_text(path, two_faults);
    const Answer answer = run_program({"check", path});
    CHECK(answer.code == 3);
    CHECK(answer.err.empty());
    CHECK(answer.out ==
          path +
              ":6:15: /benches/0/height_m\n"
              "    The height of the top is 80 m. Did you mean 0.8 m? It may be 0 to 3 m.\n" +
              path +
              ":7:23: /pots/0/specis\n"
              "    The pot has no key \"specis\". Did you mean \"species\"?\n"
              "2 errors.\n");
}

TEST_CASE("check answers in JSON when a scene is wrong, too", "[cli]") {
    const ScratchFolder scratch;
    const std::string path = scratch.path("yard.json");
    write_text(path, two_faults);
    const Answer answer = run_program({"check", path, "--json"});
    CHECK(answer.code == 3);
    const json result = json::parse(answer.out);
    CHECK(result["valid"] == false);
    CHECK(result["counts"].is_null());
    CHECK(result["scene"]["file"] == path);
    REQUIRE(result["errors"].size() == 2);
    const json& error = result["errors"][1];
    CHECK(error["code"] == "unknown_key");
    CHECK(error["file"] == path);
    CHECK(error["line"] == 7);
    CHECK(error["column"] == 23);
    CHECK(error["pointer"] == "/pots/0/specis");
    CHECK(error["nearest"] == "species");
    CHECK(error["message"] == "The pot has no key \"specis\".");
}

TEST_CASE("check takes the pots of a table in place of the scene's own", "[cli]") {
    const ScratchFolder scratch;
    const std::string table = scratch.path("pots.csv");
    write_text(table, "id,species,spot\nQ1,Acer palmatum,A-1\nQ2,Acer palmatum,A-2\n");
    const Answer answer = run_program({"check", every_key, "--pots", table, "--json"});
    REQUIRE(answer.code == 0);
    CHECK(json::parse(answer.out)["counts"]["pots"] == 2);
    write_text(table, "id,species,spot\nQ1,Acer palmatum,A-99\n");
    const Answer wrong = run_program({"check", every_key, "--pots", table, "--json"});
    CHECK(wrong.code == 3);
    const json errors = json::parse(wrong.out)["errors"];
    REQUIRE(errors.size() == 1);
    CHECK(errors[0]["file"] == table);
    CHECK(errors[0]["line"] == 2);
}

TEST_CASE("check says when a file can't be read", "[cli]") {
    const ScratchFolder scratch;
    const Answer missing = run_program({"check", scratch.path("none.json")});
    CHECK(missing.code == 4);
    CHECK(missing.out.find("There is no such file.") != std::string::npos);
    const Answer folder = run_program({"check", scratch.path(""), "--json"});
    CHECK(folder.code == 4);
    CHECK(json::parse(folder.out)["valid"] == false);
}

TEST_CASE("schema prints the published schema", "[cli]") {
    const Answer answer = run_program({"schema"});
    CHECK(answer.code == 0);
    CHECK(answer.out == read_text(std::string(SUNFLECK_SCENES) + "/sunfleck-scene.schema.json"));
}
