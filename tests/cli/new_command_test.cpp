#include "cli/commands.h"
#include "cli/run_program.h"
#include "sunfleck/scene/pots_csv.h"
#include "sunfleck/scene/scene_file.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <sstream>

using namespace sunfleck;
using namespace sunfleck::cli_test;

namespace {

const std::vector<std::string> london{"--latitude", "51.5",   "--longitude",
                                      "-0.3",       "--zone", "Europe/London"};

std::vector<std::string> words(std::vector<std::string> first,
                               const std::vector<std::string>& more) {
    first.insert(first.end(), more.begin(), more.end());
    return first;
}

/// Runs the command as if a person answered at a terminal.
struct Asked {
    Result<void> result;
    std::string questions;
};
Asked interview(const cli::NewArguments& arguments, const std::string& answers) {
    std::istringstream in(answers);
    std::ostringstream out;
    std::ostringstream err;
    cli::Terminal terminal{.in = in, .out = out, .err = err, .in_is_screen = true};
    auto result = cli::run(arguments, terminal);
    return {std::move(result), err.str()};
}

}  // namespace

TEST_CASE("new writes a scene that every reader accepts, and never over a file", "[cli]") {
    const ScratchFolder folder;
    const std::string path = folder.path("yard.json");
    const Answer made = run_program(words({"new", path}, london));
    CAPTURE(made.err);
    CHECK(made.code == 0);
    CHECK(made.err.empty());
    CHECK(made.out.find("16 spots") != std::string::npos);
    CHECK(widest_line(made.out) <= 80 + path.size());
    CHECK(run_program({"check", path}).code == 0);
    CHECK(run_program({"exposure", path, "--date", "2026-06-21"}).code == 0);

    const std::string before = read_text(path);
    const Answer again = run_program(words({"new", path, "--bare"}, london));
    CHECK(again.code == 4);
    CHECK(again.err.find("already") != std::string::npos);
    CHECK(read_text(path) == before);
}

TEST_CASE("new takes every answer as an option", "[cli]") {
    const ScratchFolder folder;
    const std::string path = folder.path("yard.json");
    const std::string table = folder.path("pots.csv");
    const Answer made =
        run_program(words({"new", path, "--name", "Fern yard", "--plan-up", "12", "--bench-length",
                           "3", "--bench-depth", "0.9", "--bench-height", "0.7", "--bench-bearing",
                           "100", "--pots", table},
                          london));
    CAPTURE(made.err);
    REQUIRE(made.code == 0);
    const auto file = scene::SceneFile::read(path);
    REQUIRE(file);
    const scene::Scene& garden = file->scene();
    CHECK(garden.site.name == "Fern yard");
    CHECK(garden.site.plan_up_bearing.in_degrees() == Approx(12.0));
    CHECK(garden.benches[0].length_m == Approx(3.0));
    CHECK(garden.benches[0].depth_m == Approx(0.9));
    CHECK(garden.benches[0].tiers[0].height_m == Approx(0.7));
    CHECK(garden.benches[0].bearing.in_degrees() == Approx(100.0));
    const auto pots = scene::PotsCsv::read(table);
    REQUIRE(pots);
    CHECK(pots->pots().size() == 3);
    CHECK(run_program({"check", path, "--pots", table}).code == 0);
}

TEST_CASE("new says what is missing or cannot be, and writes nothing", "[cli][junk]") {
    const ScratchFolder folder;
    const std::string path = folder.path("yard.json");
    struct Row {
        std::vector<std::string> options;
        int code;
        const char* told;
    };
    const std::vector<Row> rows{
        {{}, 2, "--latitude, --longitude, --zone"},
        {{"--latitude", "51.5", "--longitude", "-0.3"}, 2, "--zone"},
        {{"--latitude", "95", "--longitude", "-0.3", "--zone", "Europe/London"}, 2, "latitude"},
        {{"--latitude", "nan", "--longitude", "-0.3", "--zone", "Europe/London"}, 2, "number"},
        {{"--latitude", "51.5", "--longitude", "-0.3", "--zone", "Europe/Lodnon"},
         2,
         "Europe/London"},
        {{"--latitude", "51.5", "--longitude", "139", "--zone", "Europe/London"}, 2, "9.3 h"},
        {words({"--bench-length", "240"}, london), 2, "2.4"},
        {words({"--bench-depth", "-1"}, london), 2, "depth"},
    };
    for (const Row& row : rows) {
        const Answer answer = run_program(words({"new", path}, row.options));
        CAPTURE(row.options, answer.err);
        CHECK(answer.code == row.code);
        CHECK(answer.err.find(row.told) != std::string::npos);
        CHECK_FALSE(std::filesystem::exists(path));
    }
    const Answer nowhere = run_program(words({"new", folder.path("no/such/yard.json")}, london));
    CHECK(nowhere.code == 4);
}

TEST_CASE("new asks on a terminal until it understands", "[cli]") {
    const ScratchFolder folder;
    const std::string path = folder.path("yard.json");
    const Asked asked = interview({.path = path},
                                  "Fern yard\n"      // name
                                  "somewhere\n"      // no latitude
                                  "37.8 S, 145 E\n"  // both at once
                                  "Australia/Melborne\n"
                                  "Australia/Melbourne\n"
                                  "\n"  // up is north
                                  "300 cm\n"
                                  "80 m\n"  // too deep
                                  "0,9\n"
                                  "\n"  // height 80 cm
                                  "south-east\n");
    CAPTURE(asked.questions);
    REQUIRE(asked.result);
    CHECK(asked.questions.find("Write degrees") != std::string::npos);
    CHECK(asked.questions.find("Australia/Melbourne") != std::string::npos);
    CHECK(asked.questions.find("5 cm to 20.00 m") != std::string::npos);
    CHECK(asked.questions.find("Longitude (east") == std::string::npos);
    const auto file = scene::SceneFile::read(path);
    REQUIRE(file);
    CHECK(file->scene().site.place.latitude.in_degrees() == Approx(-37.8));
    CHECK(file->scene().site.place.longitude.in_degrees() == Approx(145.0));
    CHECK(file->scene().benches[0].length_m == Approx(3.0));
    CHECK(file->scene().benches[0].depth_m == Approx(0.9));
    // Looking south-east (135), left to right runs south-west (225).
    CHECK(file->scene().benches[0].bearing.in_degrees() == Approx(225.0));

    const Asked ended = interview({.path = folder.path("other.json")}, "Fern yard\n51.5\n");
    REQUIRE_FALSE(ended.result);
    CHECK(ended.result.error().front().code == "answers_ended");
    CHECK_FALSE(std::filesystem::exists(folder.path("other.json")));
}
