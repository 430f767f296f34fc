#include "cli/run_program.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace sunfleck::cli_test;
using nlohmann::json;

namespace {

const std::string yard = SUNFLECK_SCENES "/walled_yard.json";

}  // namespace

TEST_CASE("wrong words end with exit code 2 and a hint on standard error", "[cli][junk]") {
    const std::vector<std::vector<std::string>> calls = {
        {},
        {"garden"},
        {"exposure"},
        {"exposure", yard, "--dat", "2026-06-21"},
        {"exposure", yard, "--date", "2026-02-30"},
        {"exposure", yard, "--json", "--csv"},
        {"exposure", yard, "--year", "99"},
        {"exposure", yard, "--date", "2026-06-21", "--season", "autumn"},
        {"exposure", yard, "--from", "2026-06-21"},
        {"moves", yard, "--from", "midsummer"},
        {"sun"},
    };
    for (const auto& call : calls) {
        CAPTURE(call);
        const Answer answer = run_program(call);
        CHECK(answer.code == 2);
        CHECK(answer.out.empty());
        CHECK_FALSE(answer.err.empty());
    }
}

TEST_CASE("a file that is not there ends with exit code 4 and its name", "[cli][junk]") {
    for (const char* command : {"check", "exposure", "place", "picture"}) {
        CAPTURE(command);
        const Answer answer = run_program({command, "no such garden.json"});
        CHECK(answer.code == 4);
        CHECK((answer.out + answer.err).find("no such garden.json") != std::string::npos);
    }
}

TEST_CASE("a broken scene ends with exit code 3, the place and the mend", "[cli][junk]") {
    const ScratchFolder scratch;
    write_text(scratch.path("g.json"),
               "{\n  \"format\": \"sunfleck-scene\",\n  \"version\": 1,\n"
               "  \"bences\": []\n}\n");
    const Answer answer = run_program({"check", scratch.path("g.json")});
    CHECK(answer.code == 3);
    const std::string all = answer.out + answer.err;
    CHECK(all.find(":4:") != std::string::npos);
    CHECK(all.find("benches") != std::string::npos);
    CHECK(all.find("site") != std::string::npos);
}

TEST_CASE("a failure asked for as JSON is one object with errors", "[cli][json]") {
    const Answer answer = run_program({"exposure", yard, "--season", "midsumer", "--json"});
    CHECK(answer.code == 2);
    const json result = json::parse(answer.out);
    REQUIRE(result["errors"].size() == 1);
    CHECK(result["format"] == "sunfleck-result");
    CHECK(result["command"] == "exposure");
    CHECK(result["errors"][0]["nearest"] == "midsummer");
}

TEST_CASE("help and version answer on standard output with exit code 0", "[cli]") {
    CHECK(run_program({"--version"}).out.rfind("sunfleck ", 0) == 0);
    for (const char* command :
         {"check", "schema", "sun", "picture", "exposure", "place", "moves"}) {
        CAPTURE(command);
        const Answer answer = run_program({command, "--help"});
        CHECK(answer.code == 0);
        CHECK(answer.err.empty());
        CHECK(answer.out.find("Usage") != std::string::npos);
    }
}

TEST_CASE("sun answers for instants on standard input in the same order", "[cli]") {
    const Answer answer = run_program(
        {"sun", "--latitude", "51.48", "--longitude", "0", "--zone", "Europe/London", "--at", "-"},
        "utc\n2026-06-21T12:00:00Z\n2026-01-01T12:00:00Z\n");
    REQUIRE(answer.code == 0);
    const auto first = answer.out.find("2026-06-21T12:00:00");
    const auto second = answer.out.find("2026-01-01T12:00:00");
    CHECK(first != std::string::npos);
    CHECK(second != std::string::npos);
    CHECK(first < second);
}
