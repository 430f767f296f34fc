#include "base/within.h"
#include "cli/run_program.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <sstream>

using namespace sunfleck::cli_test;
using nlohmann::json;
using sunfleck::test::within;

namespace {

std::vector<std::string> demo_scenes() {
    std::vector<std::string> paths;
    for (const auto& entry : std::filesystem::directory_iterator(SUNFLECK_SCENES)) {
        const std::string name = entry.path().filename().string();
        if (name.ends_with(".json") && !name.ends_with(".schema.json")) {
            paths.push_back(entry.path().string());
        }
    }
    std::sort(paths.begin(), paths.end());
    return paths;
}

json answer_of(const std::vector<std::string>& words) {
    const Answer answer = run_program(words);
    CAPTURE(words, answer.err);
    REQUIRE(answer.code == 0);
    return json::parse(answer.out);
}

std::string first_spot(const std::string& scene) {
    return answer_of({"exposure", scene, "--json"})["spots"][0]["spot"];
}

/// One that is not pinned: such a pot has no other spot to compare with.
std::string first_free_pot(const std::string& path) {
    const json scene = json::parse(read_text(path));
    for (const json& pot : scene["pots"]) {
        if (!pot.value("pinned", false)) return pot["id"];
    }
    return {};
}

}  // namespace

TEST_CASE("there are demo gardens in both hemispheres, one with sixty pots", "[cli][scenes]") {
    bool north = false;
    bool south = false;
    std::size_t most = 0;
    for (const auto& path : demo_scenes()) {
        const json scene = json::parse(read_text(path));
        const double latitude = scene["site"]["latitude_deg"];
        (latitude < 0 ? south : north) = true;
        most = std::max(most, scene["pots"].size());
    }
    CHECK(demo_scenes().size() >= 3);
    CHECK(north);
    CHECK(south);
    CHECK(most >= 60);
}

TEST_CASE("the demo gardens hold all that gardens are made of", "[cli][scenes]") {
    int with_tiers = 0;
    int with_slope = 0;
    for (const auto& path : demo_scenes()) {
        CAPTURE(path);
        const json scene = json::parse(read_text(path));
        CHECK(scene["benches"].size() + scene.value("post_stands", json::array()).size() >= 2);
        CHECK_FALSE(scene["pots"].empty());
        for (const json& bench : scene["benches"]) with_tiers += bench.contains("tiers") ? 1 : 0;
        with_slope += scene.contains("ground") ? 1 : 0;
    }
    CHECK(with_tiers >= 1);
    CHECK(with_slope >= 1);
    for (const char* thing : {"walls", "cloths", "trees", "buildings", "lath_panels", "fences"}) {
        CAPTURE(thing);
        int gardens = 0;
        for (const auto& path : demo_scenes()) {
            gardens += json::parse(read_text(path)).contains(thing) ? 1 : 0;
        }
        CHECK(gardens >= 1);
    }
}

TEST_CASE("the README's commands do what it says, in their order", "[cli][scenes]") {
    const ScratchFolder scratch;
    std::filesystem::create_directory_symlink(SUNFLECK_SCENES, scratch / "scenes");
    std::istringstream readme(read_text(SUNFLECK_SCENES "/../README.md"));
    int run = 0;
    for (std::string line; std::getline(readme, line);) {
        if (line.rfind("    sunfleck ", 0) != 0) continue;
        std::istringstream call(line.substr(0, line.find('#')));
        std::vector<std::string> words;
        for (std::string word; call >> word;) words.push_back(word);
        words.erase(words.begin());
        // Nobody answers its questions here.
        if (words[0] == "new") {
            words.insert(words.end(),
                         {"--latitude", "51.5", "--longitude", "-0.3", "--zone", "Europe/London"});
        }
        ++run;
        if (words[0] == "window") {  // nor closes it
            write_text((scratch / "hand.txt").string(), "wait\nkey Tab\nexpect open no\n");
            words.insert(words.end(), {"--script", "hand.txt"});
            const Answer answer = run_program_on_screen(words, scratch.path().string());
            CAPTURE(line, answer.err);
            CHECK(answer.code == 0);
            continue;
        }
        const Answer answer = run_program_in(scratch.path().string(), words);
        CAPTURE(line, answer.err, answer.out.substr(0, 400));
        CHECK(answer.code == 0);
        CHECK_FALSE(answer.out.empty());
    }
    CHECK(run >= 10);
}

TEST_CASE("every demo garden is sound", "[cli][scenes]") {
    for (const auto& path : demo_scenes()) {
        CAPTURE(path);
        const json result = answer_of({"check", path, "--json"});
        CHECK(result["valid"] == true);
        CHECK(result["errors"].empty());
        CAPTURE(result["warnings"].dump());
        CHECK(result["warnings"].empty());
    }
}

TEST_CASE("every demo garden runs through every command", "[cli][scenes]") {
    const ScratchFolder scratch;
    for (const auto& path : demo_scenes()) {
        CAPTURE(path);
        const std::string spot = first_spot(path);
        const std::string pot = first_free_pot(path);
        const std::vector<std::vector<std::string>> calls = {
            {"sun", path},
            {"exposure", path},
            {"exposure", path, "--season", "autumn"},
            {"exposure", path, "--season", "midsummer", "--csv"},
            {"exposure", path, "--hours", "--spots", spot},
            {"exposure", path, "--pot-walls", "--spots", spot, "--json"},
            {"place", path, "--date", "2026-07-20"},
            {"place", path, "--date", "2026-10-10", "--csv"},
            {"moves", path, "--from", "midsummer", "--to", "autumn"},
            {"moves", path, "--from", "midsummer", "--to", "autumn", "--lifts", "3", "--json"},
            {"why", path, pot, "--date", "2026-07-20"},
            {"why", path, pot, "--date", "2026-07-20", "--json"},
            {"picture", path, "--at", "15:00", "--output", scratch.path("plan.png")},
            {"picture", path, "--output", scratch.path("plan.svg")},
            {"picture", path, "--spot", spot, "--output", scratch.path("year.png")},
        };
        for (const auto& call : calls) {
            CAPTURE(call);
            const Answer answer = run_program(call);
            CAPTURE(answer.err, answer.out.substr(0, 400));
            CHECK(answer.code == 0);
            CHECK_FALSE(answer.out.empty());
            const bool is_table = std::none_of(call.begin(), call.end(), [](const auto& word) {
                return word == "--csv" || word == "--json";
            });
            if (is_table && call[0] != "picture") CHECK(widest_line(answer.out) <= 80);
        }
    }
}

TEST_CASE("the three kinds of minutes make up the day at every spot", "[cli][scenes]") {
    for (const auto& path : demo_scenes()) {
        CAPTURE(path);
        const json result = answer_of({"exposure", path, "--json"});
        REQUIRE_FALSE(result["spots"].empty());
        for (const auto& spot : result["spots"]) {
            const auto& mean = spot["mean"];
            const double sum = mean["full_min"].get<double>() + mean["filtered_min"].get<double>() +
                               mean["shade_min"].get<double>();
            CHECK(sum == within(mean["sun_up_min"].get<double>(), 0.01));
        }
    }
}

TEST_CASE("the same question has the same answer on any number of threads", "[cli][scenes]") {
    const auto path = SUNFLECK_SCENES "/terrace_south.json";
    const auto one =
        run_program({"place", path, "--season", "midsummer", "--json", "--threads", "1"});
    const auto three =
        run_program({"place", path, "--season", "midsummer", "--json", "--threads", "3"});
    REQUIRE(one.code == 0);
    CHECK(one.out == three.out);
}

TEST_CASE("a plan taken as the pots' places is left alone the next time", "[cli][scenes]") {
    const ScratchFolder scratch;
    for (const auto& path : demo_scenes()) {
        CAPTURE(path);
        const std::string before = read_text(path);
        const std::string written = scratch.path("planned.json");
        REQUIRE(run_program({"place", path, "--season", "midsummer", "--write", written}).code ==
                0);
        CHECK(read_text(path) == before);
        const json again = answer_of({"place", written, "--season", "midsummer", "--json"});
        for (const auto& pot : again["pots"]) {
            CAPTURE(pot.dump());
            CHECK(pot["spot"] == pot["from_spot"]);
        }
    }
}
