#include "cli/run_program.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sys/wait.h>

#include <cstdlib>

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
    check_wrong_calls(calls);
}

TEST_CASE("a slip on the command line is named with its mend", "[cli][junk]") {
    struct Row {
        std::vector<std::string> call;
        const char* told;
    };
    const std::vector<Row> rows{
        {{}, "Usage: sunfleck"},
        {{"chekc", yard}, "Did you mean check?"},
        {{"gardens"}, "The commands are check, "},
        {{"check"}, "scene file is missing. Write: sunfleck check SCENE\n"},
        {{"moves", yard, "--from", "spring"},
         "The season that begins is missing. Write: sunfleck moves SCENE --from SEASON"},
        {{"why", yard}, "The pot's code is missing."},
        {{"exposure", yard, "--sesaon", "autumn"},
         "no option --sesaon here. Did you mean --season"},
        {{"check", yard, "twice"}, "\"twice\" is a word too many."},
        {{"exposure", yard, "--height", "80"}, "not in range 0 to 5\n"},
        {{"sun", "--latitude", "48,9"}, "decimals take a point"},
        {{"place", yard, "--write", "/no such folder/plan.json"}, "no such folder"},
        {{"why", yard, "Z9"}, "There is no pot Z9."},
    };
    for (const Row& row : rows) {
        CAPTURE(row.call);
        const Answer answer = run_program(row.call);
        CAPTURE(answer.err);
        CHECK(answer.code != 0);
        CHECK(answer.err.find(row.told) != std::string::npos);
    }
}

TEST_CASE("messages about the command fit 80 columns", "[cli]") {
    const Answer answer = run_program({"exposure", yard, "--season", "summer"});
    CHECK(answer.code == 2);
    CHECK(widest_line(answer.err) <= 80);
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

TEST_CASE("each failure of a call has its own code, kind and mend", "[cli][junk]") {
    const std::string small = SUNFLECK_TEST_DATA "/quince_yard.json";
    const ScratchFolder scratch;
    const std::string text = read_text(small);
    const std::string empty = scratch.path("empty.json");
    const std::string bare = scratch.path("bare.json");
    const std::string full = scratch.path("full.json");
    const auto pots = text.find("\"pots\"");
    const auto benches = text.find("\"benches\"");
    const auto lifting = text.find("\"lifting\"");
    const std::string site = text.substr(0, benches);
    const std::string rest = text.substr(lifting);
    write_text(empty, site + rest);
    write_text(bare, text.substr(0, pots) + rest);
    write_text(full, site + R"("post_stands": [{"id": "P", "x_m": 0, "y_m": 0, "height_m": 1}],
        "pots": [{"id": "A", "spot": "P", "pinned": true}, {"id": "B"}], )" +
                         rest);
    struct Row {
        std::vector<std::string> words;
        const char* code;
        int exit_code;
    };
    const std::vector<Row> rows = {
        {{"exposure", small, "--from", "2026-06-02", "--to", "2026-06-01"}, "range_backwards", 2},
        {{"exposure", small, "--season", "autum"}, "unknown_season", 2},
        {{"exposure", small, "--spots", "Z-1"}, "unknown_spot", 2},
        {{"exposure", empty}, "no_spots", 5},
        {{"exposure", small, "--picture", scratch.path("x.gif")}, "unknown_picture_format", 2},
        {{"picture", small, "--at", "25:00"}, "clock_time_unclear", 2},
        {{"picture", small, "--size", "9x9"}, "picture_size_out_of_range", 2},
        {{"picture", small, "--spot", "Z-1"}, "unknown_spot", 2},
        {{"picture", small, "--output", scratch.path("no/such/x.png")}, "file_not_saved", 4},
        {{"place", bare}, "nothing_to_place", 5},
        {{"place", small, "--write", scratch.path("no/such/x.json")}, "file_not_saved", 4},
        {{"why", small, "M2"}, "unknown_pot", 2},
        {{"why", small, "M1", "--instead", "A"}, "spot_unclear", 2},
        {{"why", small, "M1", "--instead", "P"}, "spot_held", 5},
        {{"why", full, "B"}, "no_room", 5},
        {{"sun", small, "--at", "-", "--at", "12:00"}, "at_twice", 2},
        {{"sun", small, "--at", "-"}, "no_utc_column", 3},
    };
    for (Row row : rows) {
        CAPTURE(row.words);
        row.words.emplace_back("--json");
        const Answer answer = run_program(row.words, "time\n2026-06-21T12:00Z\n");
        CAPTURE(answer.out, answer.err);
        CHECK(answer.code == row.exit_code);
        const json result = json::parse(answer.out, nullptr, false);
        REQUIRE(result.is_object());
        REQUIRE(result["errors"].size() == 1);
        CHECK(result["errors"][0]["code"] == row.code);
        CHECK_FALSE(result["errors"][0]["message"].get<std::string>().empty());
        CHECK_FALSE(result["errors"][0]["mend"].get<std::string>().empty());
    }
}

TEST_CASE("a plan that is written is where the next one begins", "[cli]") {
    const std::string small = SUNFLECK_TEST_DATA "/quince_yard.json";
    const std::string before = read_text(small);
    const ScratchFolder scratch;
    const std::string written = scratch.path("planned.json");
    const std::vector<std::vector<std::string>> plans = {
        {"place", "--season", "midsummer"},
        {"moves", "--from", "early_summer", "--to", "midsummer"}};
    for (const auto& plan : plans) {
        CAPTURE(plan[0]);
        const auto asked_of = [&plan](const std::string& scene, std::vector<std::string> more) {
            std::vector<std::string> words{plan[0], scene};
            words.insert(words.end(), plan.begin() + 1, plan.end());
            words.insert(words.end(), more.begin(), more.end());
            return run_program(words);
        };
        const Answer first = asked_of(small, {"--json", "--write", written});
        REQUIRE(first.code == 0);
        CHECK(json::parse(first.out)["lifts"] == 1);
        const Answer again = asked_of(written, {"--json"});
        REQUIRE(again.code == 0);
        CHECK(json::parse(again.out)["lifts"] == 0);
        CHECK(read_text(small) == before);
        // Nothing but the one pot's spot is another.
        std::string expected = before;
        expected.replace(expected.find("\"A-4\""), 5, "\"A-2\"");
        CHECK(read_text(written) == expected);
        CHECK(scratch.file_count() == 1);
    }
}

TEST_CASE("answers are the same to the byte on any number of threads", "[cli]") {
    const std::string small = SUNFLECK_TEST_DATA "/quince_yard.json";
    const std::vector<std::vector<std::string>> calls = {
        {"exposure", small, "--season", "autumn", "--json"},
        {"exposure", small, "--date", "2026-06-21", "--pot-walls", "--csv"},
        {"moves", small, "--from", "early_summer", "--to", "midsummer", "--json"}};
    for (const auto& call : calls) {
        CAPTURE(call);
        std::vector<std::string> one = call;
        one.insert(one.end(), {"--threads", "1"});
        std::vector<std::string> four = call;
        four.insert(four.end(), {"--threads", "4"});
        const Answer answer = run_program(one);
        REQUIRE(answer.code == 0);
        CHECK(answer.out == run_program(four).out);
    }
}

TEST_CASE("an answer that finds no room ends with exit code 4 and says so", "[cli][junk]") {
    const ScratchFolder scratch;
    const std::string told = scratch.path("err");
    const std::string line = "'" + tested_program() +
                             "' sun --latitude 51.5 --longitude 0 --zone Europe/London --json "
                             ">/dev/full 2>'" +
                             told + "'";
    const int status = std::system(line.c_str());
    REQUIRE(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 4);
    CHECK(read_text(told) == "The answer could not be written to standard output.\n");
}

TEST_CASE("progress is shown to a person on standard error, and wiped away", "[cli]") {
    const ScratchFolder scratch;
    const std::string small = SUNFLECK_TEST_DATA "/quince_yard.json";
    const std::string out = scratch.path("out");
    const std::string screen = scratch.path("screen");
    // script (1) runs it on a terminal of its own and keeps what that shows.
    const std::string line = "script -qec \"'" + tested_program() + "' exposure '" + small +
                             "' --season autumn >'" + out + "'\" /dev/null >'" + screen +
                             "' </dev/null";
    REQUIRE(std::system(line.c_str()) == 0);
    const std::string shown = read_text(screen);
    CHECK(shown.find("Following the sun, ") != std::string::npos);
    CHECK(shown.rfind("\r\x1b[K") == shown.size() - 4);
    const Answer unwatched = run_program({"exposure", small, "--season", "autumn"});
    CHECK(read_text(out) == unwatched.out);
    CHECK(unwatched.err.empty());
}

TEST_CASE("help and version answer on standard output with exit code 0", "[cli]") {
    CHECK(run_program({"--version"}).out.rfind("sunfleck ", 0) == 0);
    for (const char* command :
         {"check", "new", "schema", "sun", "picture", "exposure", "place", "moves", "why"}) {
        CAPTURE(command);
        const Answer answer = run_program({command, "--help"});
        CHECK(answer.code == 0);
        CHECK(answer.err.empty());
        CHECK(answer.out.find("Usage") != std::string::npos);
        CHECK(widest_line(answer.out) <= 80);
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
