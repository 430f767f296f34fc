#include "base/within.h"
#include "cli/run_program.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <sstream>

using namespace sunfleck::cli_test;
using nlohmann::json;
using sunfleck::test::within;

namespace {

using Rows = std::vector<std::map<std::string, std::string>>;

std::vector<std::string> cells_of(const std::string& line) {
    std::vector<std::string> cells;
    std::stringstream stream(line);
    for (std::string cell; std::getline(stream, cell, ',');) cells.push_back(cell);
    return cells;
}

/// A CSV without quotes, by column name.
Rows table_of(const std::string& text) {
    std::stringstream lines(text);
    std::string line;
    std::getline(lines, line);
    const auto head = cells_of(line);
    Rows rows;
    while (std::getline(lines, line)) {
        auto cells = cells_of(line);
        cells.resize(head.size());
        rows.emplace_back();
        for (std::size_t i = 0; i < head.size(); ++i) rows.back()[head[i]] = cells[i];
    }
    return rows;
}

Rows reference(const std::string& name) {
    return table_of(read_text(std::string(SUNFLECK_TEST_DATA) + "/" + name));
}

double number(const std::map<std::string, std::string>& row, const std::string& column) {
    return std::stod(row.at(column));
}

/// Angle between two directions given by azimuth and altitude, degrees.
double separation_deg(double azimuth_a, double altitude_a, double azimuth_b, double altitude_b) {
    constexpr double deg = std::numbers::pi / 180.0;
    const double half_altitude = std::sin((altitude_a - altitude_b) * deg / 2.0);
    const double half_azimuth = std::sin((azimuth_a - azimuth_b) * deg / 2.0);
    const double haversine = half_altitude * half_altitude + std::cos(altitude_a * deg) *
                                                                 std::cos(altitude_b * deg) *
                                                                 half_azimuth * half_azimuth;
    return 2.0 * std::asin(std::sqrt(haversine)) / deg;
}

std::vector<std::string> sun_call(const std::map<std::string, std::string>& row,
                                  const std::string& zone) {
    return {"sun",         "--latitude",     row.at("lat_deg"), "--longitude", row.at("lon_deg"),
            "--elevation", row.at("elev_m"), "--zone",          zone};
}

const std::vector<std::string> london{"sun",  "--latitude", "51.5",         "--longitude",
                                      "-0.3", "--zone",     "Europe/London"};

Answer london_answer(std::vector<std::string> more, const std::string& input = "") {
    more.insert(more.begin(), london.begin(), london.end());
    return run_program(more, input);
}

int count_of(const std::string& text, const std::string& word) {
    int count = 0;
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
        ++count;
    }
    return count;
}

}  // namespace

// sun_position.csv: ERFA 2.0.0 (tests/data/README.md); refraction column: Saemundsson.
TEST_CASE("the program meets every row of the position table through --at -", "[cli][cross]") {
    std::map<std::string, Rows> by_place;
    for (auto& row : reference("sun_position.csv")) by_place[row.at("place")].push_back(row);
    std::size_t compared = 0;
    for (const auto& [place, rows] : by_place) {
        std::string input = "place,utc\n";
        for (const auto& row : rows) input += place + "," + row.at("utc") + "\n";
        auto call = sun_call(rows.front(), "UTC");
        call.insert(call.end(), {"--at", "-"});
        const Answer answer = run_program(call, input);
        REQUIRE(answer.code == 0);
        const Rows found = table_of(answer.out);
        REQUIRE(found.size() == rows.size());
        for (std::size_t i = 0; i < rows.size(); ++i) {
            CAPTURE(place, rows[i].at("utc"));
            CHECK(separation_deg(number(found[i], "azimuth_deg"),
                                 number(found[i], "altitude_true_deg"),
                                 number(rows[i], "azimuth_deg"),
                                 number(rows[i], "elevation_true_deg")) <= 0.0003);
            const std::string& seen = rows[i].at("elevation_refr_saemundsson_1010hpa_10c_deg");
            if (!seen.empty()) {
                CHECK(number(found[i], "altitude_apparent_deg") == within(std::stod(seen), 0.001));
            }
            ++compared;
        }
    }
    CHECK(compared == 630);
}

TEST_CASE("the program tells the day of every row of the rise and set table", "[cli][cross]") {
    const auto seconds = [](const std::string& utc) {
        return std::stod(utc.substr(11, 2)) * 3600.0 + std::stod(utc.substr(14, 2)) * 60.0 +
               std::stod(utc.substr(17));
    };
    const Rows rows = reference("sun_rise_transit_set.csv");
    REQUIRE(rows.size() == 168);
    for (std::size_t i = 0; i < rows.size(); i += 3) {
        const auto& row = rows[i];
        CAPTURE(row.at("place"), row.at("local_date"));
        auto call = sun_call(row, "UTC");
        call.insert(call.end(), {"--date", row.at("local_date"), "--json"});
        const Answer answer = run_program(call);
        REQUIRE(answer.code == 0);
        const json day = json::parse(answer.out)["days"].at(0);
        CHECK(day["state"] == row.at("state"));
        for (const char* key : {"sunrise_utc", "sunset_utc"}) {
            CHECK(day[key].is_null() == row.at(key).empty());
            if (day[key].is_null() || row.at(key).empty() || row.at("grazing") == "1") continue;
            const std::string found = day[key];
            CHECK(found.substr(0, 10) == row.at(key).substr(0, 10));
            CHECK(seconds(found) == within(seconds(row.at(key)), 1.0));
        }
    }
}

TEST_CASE("an instant is taken by the clock, in UTC or with its offset", "[cli]") {
    const Answer answer = london_answer({"--at", "2026-06-21T13:30", "--at", "2026-06-21T12:30Z",
                                         "--at", "2026-06-21T14:30+02:00", "--json"});
    REQUIRE(answer.code == 0);
    const json result = json::parse(answer.out);
    CHECK(result["command"] == "sun");
    CHECK(result["year"] == 2026);
    CHECK(result["time_zone"] == "Europe/London");
    REQUIRE(result["instants"].size() == 3);
    for (const json& instant : result["instants"]) {
        CHECK(instant["utc"] == "2026-06-21T12:30:00.000Z");
        CHECK(instant["local"] == "2026-06-21T13:30:00.000+01:00");
    }
    const Answer by_date = london_answer({"--at", "13:30", "--date", "2026-06-21", "--json"});
    REQUIRE(by_date.code == 0);
    CHECK(json::parse(by_date.out)["instants"][0] == result["instants"][0]);
}

TEST_CASE("a doubled hour warns and a skipped one is refused", "[cli]") {
    const Answer doubled = london_answer({"--at", "2026-10-25T01:30", "--json"});
    REQUIRE(doubled.code == 0);
    const json result = json::parse(doubled.out);
    CHECK(result["instants"][0]["local"] == "2026-10-25T01:30:00.000+01:00");
    REQUIRE(result["warnings"].size() == 1);
    CHECK(result["warnings"][0]["code"] == "doubled_hour");
    const Answer skipped = london_answer({"--at", "2026-03-29T01:30"});
    CHECK(skipped.code == 2);
    CHECK(skipped.err.find("skips") != std::string::npos);
    CHECK(skipped.out.empty());
}

TEST_CASE("a bad row on standard input is told with its line and nothing is answered",
          "[cli][junk]") {
    struct Case {
        const char* input;
        const char* place;
    };
    for (const Case c : {Case{"utc\n2026-06-21T12:00Z\nnoon\n", "standard input:3:1"},
                         Case{"place,utc\na,2026-06-21T12:00Z\nb\n", "standard input:3:"},
                         Case{"utc\n2026-02-30T12:00Z\n", "standard input:2:1"},
                         Case{"utc\n1e9\n", "standard input:2:1"},
                         Case{"time\n2026-06-21T12:00Z\n", "standard input:1:1"},
                         Case{"utc\n", "standard input:1:1"}, Case{"", "standard input"},
                         Case{"utc\n\"2026-06-21T12:00Z\n", "standard input:2:"}}) {
        CAPTURE(c.input);
        const Answer answer = london_answer({"--at", "-"}, c.input);
        CHECK(answer.code == 3);
        CHECK(answer.out.empty());
        CHECK(answer.err.find(c.place) != std::string::npos);
        CHECK(count_of(answer.err, "standard input") == 1);
    }
}

TEST_CASE("a thousand bad rows are not a thousand messages", "[cli][junk]") {
    std::string input = "utc\n";
    for (int i = 0; i < 1000; ++i) input += "noon\n";
    const Answer answer = london_answer({"--at", "-"}, input);
    CHECK(answer.code == 3);
    CHECK(count_of(answer.err, "standard input:") == 20);
    CHECK(answer.err.find("980 more") != std::string::npos);
}

TEST_CASE("a place that is none is a wrong call", "[cli][junk]") {
    const std::vector<std::vector<std::string>> calls{
        {"sun", "--latitude", "51.5"},
        {"sun", "--latitude", "95", "--longitude", "0"},
        {"sun", "--latitude", "nan", "--longitude", "0"},
        {"sun", "--latitude", "51.5", "--longitude", "181"},
        {"sun", "--latitude", "51.5", "--longitude", "0", "--zone", "Europe/Lodnon"},
        {"sun", "--latitude", "51.5", "--longitude", "0", "--pressure", "1"},
        {"sun", "--latitude", "51.5", "--longitude", "0", "--temperature", "1e9"},
        {"sun", "--latitude", "51.5", "--longitude", "0", "--at", "12:00Z", "--season", "autumn"},
        {"sun", "--latitude", "51.5", "--longitude", "0", "--at", "-", "--at", "2026-01-01T12:00"},
        {"sun", SUNFLECK_SCENES "/terrace_south.json", "--latitude", "51.5"}};
    check_wrong_calls(calls);
    const Answer zone = run_program(calls[4]);
    CHECK(zone.err.find("Europe/London") != std::string::npos);
}

TEST_CASE("without a zone the clock is universal time, and says so", "[cli]") {
    const Answer answer =
        run_program({"sun", "--latitude", "51.5", "--longitude", "-0.3", "--json"});
    REQUIRE(answer.code == 0);
    const json result = json::parse(answer.out);
    CHECK(result["time_zone"] == "UTC");
    CHECK(result["warnings"].at(0)["code"] == "no_zone");
    CHECK(result["days"].at(0)["date"] == "2026-06-21");
}

TEST_CASE("without a date the longest day is taken and named", "[cli]") {
    const Answer north = london_answer({});
    CHECK(north.out.find("21 June 2026") != std::string::npos);
    CHECK(north.out.find("longest day") != std::string::npos);
    const Answer south = run_program({"sun", "--latitude", "-36.8", "--longitude", "174.8",
                                      "--zone", "Pacific/Auckland", "--year", "2027"});
    CHECK(south.out.find("22 December 2027") != std::string::npos);
    CHECK(widest_line(south.out) <= 80);
    const Answer dated = london_answer({"--date", "2026-03-01"});
    CHECK(dated.out.find("longest day") == std::string::npos);
}

TEST_CASE("a range of days is one row a day", "[cli]") {
    const Answer answer = london_answer({"--from", "2026-03-27", "--to", "2026-04-02"});
    REQUIRE(answer.code == 0);
    CHECK(widest_line(answer.out) <= 80);
    CHECK(answer.out.find("28 Mar  05:12    05:46") != std::string::npos);
    CHECK(answer.out.find("29 Mar  06:10    06:44") != std::string::npos);  // summer time
    const Answer csv = london_answer({"--from", "2026-03-28", "--to", "2026-03-29", "--csv"});
    CHECK(table_of(csv.out).size() == 24 + 23);
}
