#include "sunfleck/output/written_files.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace sunfleck;
using namespace sunfleck::output;

TEST_CASE("files that were written are listed with kind and pages", "[output][property]") {
    const auto json = nlohmann::json::parse(
        written_files_json({.command = "picture",
                            .scene_name = "Yard",
                            .scene_file = "yard.json",
                            .year = 2026,
                            .time_zone = "Etc/UTC",
                            .warnings = {}},
                           {{.path = "a.png", .kind = "png"}, {.path = "b.svg", .kind = "svg"}}));
    CHECK(json["command"] == "picture");
    REQUIRE(json["files"].size() == 2);
    CHECK(json["files"][0] == nlohmann::json{{"path", "a.png"}, {"kind", "png"}, {"pages", 1}});
    CHECK(json["files"][1]["kind"] == "svg");
}
