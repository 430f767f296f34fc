// What the built program answers about one small invented garden, beside the approved answers in
// tests/golden. They watch for change; what is right is tested elsewhere.
#include "base/golden.h"
#include "cli/run_program.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace sunfleck::cli_test;
using namespace sunfleck::test;

namespace {

const std::string data = SUNFLECK_TEST_DATA;
const std::string yard = data + "/quince_yard.json";
using Words = std::vector<std::string>;

struct Row {
    std::string golden;
    Words words;
    std::string input = {};
};

/// What was answered to a call that must succeed without a word on standard error.
std::string answered(const Row& row, const std::vector<Stand>& stands) {
    const Answer answer = run_program(row.words, row.input);
    CAPTURE(row.golden, answer.err);
    CHECK(answer.code == 0);
    CHECK(answer.err.empty());
    return normalised(answer.out, stands);
}

void check_rows(const std::vector<Row>& rows) {
    const std::vector<Stand> stands{{data, "DATA"}};
    for (const Row& row : rows) {
        const std::string text = answered(row, stands);
        if (row.golden.ends_with(".json")) {
            check_golden_json(row.golden, text);
        } else if (row.golden.ends_with(".csv")) {
            check_golden_csv(row.golden, text);
        } else {
            CHECK(widest_line(text) <= 80);
            check_golden(row.golden, text);
        }
    }
}

/// Calls that fail: each with its exit code and what it says where.
class Failures {
  public:
    explicit Failures(std::vector<Stand> stands) : stands_(std::move(stands)) {}

    void add(const Words& words) {
        const Answer answer = run_program(words);
        std::string call = "$ sunfleck";
        for (const std::string& word : words) call += ' ' + word;
        text_ += call + "\n(exit code " + std::to_string(answer.code) + ")\n";
        text_ += answer.out + answer.err + '\n';
    }

    [[nodiscard]] std::string text() const { return normalised(text_, stands_); }

  private:
    std::vector<Stand> stands_;
    std::string text_;
};

}  // namespace

TEST_CASE("check answers as approved", "[cli][golden]") {
    check_rows(
        {{"yard_check.txt", {"check", yard}}, {"yard_check.json", {"check", yard, "--json"}}});
}

TEST_CASE("sun answers as approved", "[cli][golden]") {
    const Words at{"sun", yard, "--at", "2026-06-21T13:30", "--at", "2026-12-21T12:00Z"};
    Words at_json = at;
    at_json.push_back("--json");
    check_rows({{"yard_sun_day.txt", {"sun", yard, "--date", "2026-06-21"}},
                {"yard_sun_day.json", {"sun", yard, "--date", "2026-12-21", "--json"}},
                {"yard_sun_at.txt", at},
                {"yard_sun_at.json", at_json},
                {"yard_sun_at.csv",
                 {"sun", yard, "--at", "-"},
                 "utc\n2026-06-21T11:30:00Z\n2026-12-21T12:00:00Z\n"}});
}

TEST_CASE("exposure answers as approved", "[cli][golden]") {
    check_rows({{"yard_exposure_day.txt", {"exposure", yard, "--date", "2026-06-21"}},
                {"yard_exposure_hours.txt",
                 {"exposure", yard, "--date", "2026-06-21", "--hours", "--spots", "A-2"}},
                {"yard_exposure_season.txt", {"exposure", yard, "--season", "autumn"}},
                {"yard_exposure_day.json",
                 {"exposure", yard, "--date", "2026-06-21", "--spots", "A-2", "--json"}},
                {"yard_exposure_season.csv",
                 {"exposure", yard, "--season", "midsummer", "--spots", "A-1,P", "--csv"}}});
}

TEST_CASE("place, moves and why answer as approved", "[cli][golden]") {
    const Words place{"place", yard, "--season", "midsummer"};
    const Words moves{"moves", yard, "--from", "early_summer", "--to", "midsummer"};
    const Words why{"why", yard, "M1", "--season", "midsummer", "--instead", "A-4"};
    const auto with = [](Words words, const char* format) {
        words.emplace_back(format);
        return words;
    };
    check_rows({{"yard_place.txt", place},
                {"yard_place.json", with(place, "--json")},
                {"yard_place.csv", with(place, "--csv")},
                {"yard_moves.txt", moves},
                {"yard_moves.json", with(moves, "--json")},
                {"yard_moves.csv", with(moves, "--csv")},
                {"yard_why.txt", why},
                {"yard_why.json", with(why, "--json")}});
}

TEST_CASE("picture names its files as approved", "[cli][golden]") {
    const ScratchFolder scratch;
    const std::vector<Stand> stands{{data, "DATA"}, {scratch.path(""), "SCRATCH/"}};
    const std::string plan = scratch.path("plan.svg");
    const std::string year = scratch.path("year.png");
    check_golden("yard_picture.txt",
                 answered({"plan", {"picture", yard, "--at", "15:00", "--output", plan}}, stands));
    check_golden_json(
        "yard_picture.json",
        answered({"year", {"picture", yard, "--spot", "A-2", "--output", year, "--json"}}, stands));
    CHECK(read_text(plan).rfind("<svg", 0) == 0);
    CHECK(read_text(year).rfind("\x89PNG", 0) == 0);
}

TEST_CASE("failures are told as approved", "[cli][golden]") {
    const ScratchFolder scratch;
    const std::string sound = read_text(yard);
    const auto spoilt = [&](const std::string& name, const std::string& from,
                            const std::string& to) {
        std::string text = sound;
        text.replace(text.find(from), from.size(), to);
        write_text(scratch.path(name), text);
        return scratch.path(name);
    };
    const std::string comma = spoilt("comma.json", "\"elevation_m\": 450,", "\"elevation_m\": 450");
    const std::string unit = spoilt("unit.json", "\"height_m\": 0.8", "\"height_cm\": 80");
    const std::string key = spoilt("key.json", "\"species\": \"Acer", "\"specis\": \"Acer");
    const std::string pots = scratch.path("pots.csv");
    write_text(pots, "id,species,spot\nQ1,Acer palmatum,A-9\nQ2,Acer palmatum,A-2,A-3\n");
    Failures failures({{data, "DATA"}, {scratch.path(""), "SCRATCH/"}});
    failures.add({"check", comma});
    failures.add({"check", unit});
    failures.add({"place", key});
    failures.add({"place", unit, "--json"});
    failures.add({"check", yard, "--pots", pots});
    failures.add({"check", scratch.path("none.json")});
    failures.add({"exposure", yard, "--sesaon", "autumn"});
    failures.add({"exposure", yard, "--season", "autum"});
    failures.add({"exposure", yard, "--date", "2026-02-30"});
    failures.add({"exposure", yard, "--spots", "A-9"});
    failures.add({"why", yard, "M2"});
    failures.add({"why", yard, "M1", "--instead", "P"});
    failures.add({"picture", yard, "--output", scratch.path("plan.gif")});
    failures.add({"gardens"});
    failures.add({});
    check_golden("yard_failures.txt", failures.text());
}

// A golden is worth what its comparison sees.
TEST_CASE("answers that differ by more than machines do are seen", "[cli][property]") {
    const std::string json =
        R"({"a": [{"full_min": 240.5, "x_m": 1.25, "up_utc": "2026-06-21T03:32:46.752Z"}], "b": null})";
    const auto with = [&json](const std::string& from, const std::string& to) {
        std::string text = json;
        return text.replace(text.find(from), from.size(), to);
    };
    CHECK(json_difference(json, json).empty());
    CHECK(json_difference(json, with("240.5", "240.509")).empty());
    CHECK(json_difference(json, with("1.25", "1.250001")).empty());
    CHECK(json_difference(json, with("46.752Z", "47.3Z00Z")).find("up_utc") != std::string::npos);
    CHECK(json_difference(json, with("46.752Z", "47.300Z")).empty());
    for (const auto& [from, to] :
         std::vector<std::pair<std::string, std::string>>{{"240.5", "240.52"},
                                                          {"1.25", "1.250003"},
                                                          {"46.752Z", "47.400Z"},
                                                          {"null", "0"},
                                                          {"null", "null, \"c\": 1"},
                                                          {"x_m", "y_m"},
                                                          {"[{", "[{}, {"},
                                                          {"06-21", "06-22"}}) {
        CAPTURE(from, to);
        CHECK_FALSE(json_difference(json, with(from, to)).empty());
    }
    const std::string csv = "spot,full_min,x_m\nA-1,240.5,1.25\n";
    CHECK(csv_difference(csv, csv).empty());
    CHECK(csv_difference(csv, "spot,full_min,x_m\nA-1,240.509,1.25\n").empty());
    CHECK_FALSE(csv_difference(csv, "spot,full_min,x_m\nA-1,240.52,1.25\n").empty());
    CHECK_FALSE(csv_difference(csv, "spot,full_min,x_m\nA-1,240.5,1.26\n").empty());
    CHECK_FALSE(csv_difference(csv, "spot,full_min,x_m\nA-2,240.5,1.25\n").empty());
    CHECK_FALSE(csv_difference(csv, "spot,full_min,x_m\n").empty());
}
