#include "output/json_envelope.h"

#include "base/within.h"
#include "sunfleck/base/require.h"
#include "sunfleck/base/version.h"

#include <catch2/catch.hpp>

#include <cstring>
#include <limits>
#include <random>

using namespace sunfleck;
using namespace sunfleck::output;
using sunfleck::test::within;

namespace {

Problem too_high() {
    return {.kind = ProblemKind::input,
            .code = "value_out_of_range",
            .file = "garden.json",
            .line = 12,
            .column = 7,
            .pointer = "/benches/0/height_m",
            .message = "The top is 8.00 m up.",
            .mend = "Did you mean 80 cm?"};
}

}  // namespace

TEST_CASE("the envelope names what was computed, from what and by whom", "[output][property]") {
    const Json json = result_envelope({.command = "exposure",
                                       .scene_name = "Fern Yard",
                                       .scene_file = "fern.json",
                                       .year = 2026,
                                       .time_zone = "Europe/London",
                                       .warnings = {too_high()}});
    std::vector<std::string> keys;
    for (const auto& item : json.items()) keys.push_back(item.key());
    CHECK(keys == std::vector<std::string>{"format", "version", "command", "program_version",
                                           "scene", "year", "time_zone", "warnings"});
    CHECK(json["format"] == "sunfleck-result");
    CHECK(json["version"] == 1);
    CHECK(json["program_version"] == program_version);
    CHECK(json["scene"]["file"] == "fern.json");
    CHECK(json["warnings"][0]["line"] == 12);
    CHECK_FALSE(json["warnings"][0].contains("nearest"));
}

TEST_CASE("what is unknown is null and never left out", "[output][property]") {
    const Json json = Json::parse(error_envelope(
        "check", "", {{.code = "unknown_command", .message = "There is no such command."}}));
    CHECK(json["scene"]["name"].is_null());
    CHECK(json["scene"]["file"].is_null());
    CHECK(json["year"].is_null());
    for (const char* key : {"file", "line", "column", "pointer", "mend", "nearest"}) {
        CAPTURE(key);
        REQUIRE(json["errors"][0].contains(key));
        CHECK(json["errors"][0][key].is_null());
    }
}

TEST_CASE("an error carries its place, its mend and the nearest name", "[output][property]") {
    Problem problem = too_high();
    problem.nearest = "height_m";
    const Json error = Json::parse(error_envelope("check", "garden.json", {problem}))["errors"][0];
    CHECK(error["code"] == "value_out_of_range");
    CHECK(error["line"] == 12);
    CHECK(error["column"] == 7);
    CHECK(error["pointer"] == "/benches/0/height_m");
    CHECK(error["mend"] == "Did you mean 80 cm?");
    CHECK(error["nearest"] == "height_m");
}

TEST_CASE("numbers are written by the fewest digits that read back the same",
          "[output][property]") {
    CHECK(json_text(Json(0.1)) == "0.1\n");
    CHECK(json_text(Json(5.0)) == "5\n");
    CHECK(json_text(Json(-0.0)) == "0\n");
    CHECK(json_text(Json(1e-7)) == "1e-07\n");
    CHECK(json_text(Json(5e-324)) == "5e-324\n");
    std::mt19937_64 bits(20260621);
    int checked = 0;
    while (checked < 20000) {
        const std::uint64_t word = bits();
        double value = 0.0;
        std::memcpy(&value, &word, sizeof value);
        if (!std::isfinite(value)) continue;
        ++checked;
        const Json back = Json::parse(json_text(Json(value)));
        if (back.get<double>() == within(value, 0.0)) continue;
        CAPTURE(value);
        CHECK(false);
    }
    CHECK(checked == 20000);
}

TEST_CASE("a number that is not finite is a bug", "[output][property]") {
    CHECK_THROWS_AS(json_text(Json(std::numeric_limits<double>::quiet_NaN())), InternalError);
    CHECK_THROWS_AS(json_text(Json(std::numeric_limits<double>::infinity())), InternalError);
}

TEST_CASE("the text reads back as the same document", "[output][property]") {
    Json json = {{"a", {1, 2.5, nullptr, true, "x\ny \"q\" ü"}}, {"empty", Json::array()}};
    json["none"] = Json::object();
    for (int i = 0; i < 30; ++i) {
        json["rows"].push_back({{"spot", "A-" + std::to_string(i)}, {"full_min", i * 7.25}});
    }
    const std::string text = json_text(json);
    CHECK(Json::parse(text) == json);
    CHECK(text.find("\n    {\"spot\": \"A-3\", \"full_min\": 21.75},\n") != std::string::npos);
    CHECK(text.back() == '\n');
}

TEST_CASE("broken UTF-8 in a name cannot break the answer", "[output][property]") {
    const std::string text = json_text(Json("bench \xff"));
    CHECK(Json::parse(text) == Json("bench \uFFFD"));
}
