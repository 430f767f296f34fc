#include "sunfleck/output/exposure_report.h"

#include "sunfleck/output/text_table.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <sstream>

using namespace sunfleck;
using exposure::ReceiverKind;
using exposure::SunMinutes;

namespace {

const UtcSeconds midnight = UtcSeconds::since_1970(1782000000.0);  // 2026-06-21T00:00Z

exposure::DayExposure invented_day(Date date, int first_hour, int last_hour) {
    exposure::DayExposure day;
    day.date = date;
    for (int hour = first_hour; hour <= last_hour; ++hour) {
        SunMinutes minutes{60.0, 40.0, 15.0, 5.0, 49.0, 0.0, 0.0};
        day.hours.push_back(
            {.hour = hour, .from = midnight.plus_seconds(3600.0 * hour), .minutes = minutes});
        day.total.sun_up_min += 60.0;
        day.total.full_min += 40.0;
        day.total.filtered_min += 15.0;
        day.total.shade_min += 5.0;
        day.total.effective_min += 49.0;
    }
    day.first_sun = midnight.plus_seconds(3600.0 * first_hour);
    day.last_sun = midnight.plus_seconds(3600.0 * last_hour + 1800.5);
    day.spans = {{exposure::SunState::full, *day.first_sun, *day.last_sun, 1.0},
                 {exposure::SunState::shade, *day.last_sun, *day.last_sun, 0.0}};
    return day;
}

output::ExposureAnswer invented_answer(const std::string& bench, bool has_walls, int days,
                                       int last_hour = 20) {
    const Date from = make_date(2026, 6, 21);
    output::ExposureAnswer answer{.garden = "A garden",
                                  .spots = {},
                                  .table = {},
                                  .zone = *sun::TimeZone::find("Europe/London"),
                                  .season = {},
                                  .hot_on_first = {midnight, midnight.plus_seconds(18000)},
                                  .hot_on_last = {midnight, midnight.plus_seconds(18000)},
                                  .sunless = {}};
    scene::Spot spot;
    spot.id = bench + "-12";
    spot.bench = bench;
    answer.spots = {spot};
    answer.table = {.from = from, .to = add_days(from, days - 1), .day_step = 1, .receivers = {}};
    std::vector<ReceiverKind> kinds{ReceiverKind::crown};
    if (has_walls) kinds.insert(kinds.end(), {ReceiverKind::wall_n, ReceiverKind::wall_w});
    for (const ReceiverKind kind : kinds) {
        exposure::ReceiverExposure receiver;
        receiver.receiver = {.spot = 0, .kind = kind, .height_m = 0.2};
        for (int i = 0; i < days; ++i) {
            receiver.days.push_back(invented_day(add_days(from, i), 4, last_hour));
        }
        receiver.mean = receiver.days[0].total;
        receiver.least = receiver.mean;
        receiver.most = receiver.mean;
        receiver.least_date = add_days(from, days - 1);
        receiver.most_date = from;
        answer.table.receivers.push_back(receiver);
    }
    return answer;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::istringstream stream(text);
    std::vector<std::string> lines;
    for (std::string line; std::getline(stream, line);) lines.push_back(line);
    return lines;
}

}  // namespace

TEST_CASE("exposure tables keep to 80 columns", "[output][property]") {
    for (const std::string bench : {"A", "Long_bench", "Bank"}) {
        for (const bool has_walls : {false, true}) {
            for (const int days : {1, 12}) {
                for (const int last_hour : {20, 23}) {
                    const auto answer = invented_answer(bench, has_walls, days, last_hour);
                    for (const std::string& text :
                         {output::exposure_text(answer), output::exposure_hours_text(answer)}) {
                        CHECK(text.find(bench + "-12") != std::string::npos);
                        for (const std::string& line : lines_of(text)) {
                            CAPTURE(line);
                            CHECK(output::display_width(line) <= 80);
                        }
                    }
                }
            }
        }
    }
}

TEST_CASE("a day's row tells sums and ends, a range's the extremes", "[output][golden]") {
    const std::string day = output::exposure_text(invented_answer("A", false, 1));
    CHECK(day.find("11 h 20    4 h 15  1 h 25  13 h 55  none  05:00  21:30") != std::string::npos);
    const std::string range = output::exposure_text(invented_answer("A", false, 12));
    CHECK(range.find("13 h 55 2 Jul  13 h 55 21 Jun") != std::string::npos);
}

TEST_CASE("sunless spots are told as they are", "[output][property]") {
    auto answer = invented_answer("A", false, 1);
    answer.sunless = {{.receiver = 0, .season = {}}};
    CHECK(output::exposure_text(answer).find("A-12: no sun here on any day of the year.") !=
          std::string::npos);
    answer.sunless[0].season = {make_date(2026, 2, 27), make_date(2026, 10, 15)};
    CHECK(output::exposure_text(answer).find(
              "A-12: none on these days; sun from 27 February to 15 October.") !=
          std::string::npos);
}

TEST_CASE("sunless neighbours share a line, others do not", "[output][property]") {
    auto answer = invented_answer("A", false, 1);
    const scene::Spot first = answer.spots[0];
    const auto row = answer.table.receivers[0];
    for (std::size_t i = 1; i < 5; ++i) {
        answer.spots.push_back(first);
        answer.spots[i].id = "A-" + std::to_string(12 + i);
        answer.table.receivers.push_back(row);
        answer.table.receivers[i].receiver.spot = i;
    }
    // 12 and 13 never; 14 has sun; 15 never; 16 in part of the year.
    answer.sunless = {{.receiver = 0, .season = {}},
                      {.receiver = 1, .season = {}},
                      {.receiver = 3, .season = {}},
                      {.receiver = 4, .season = {make_date(2026, 2, 27), make_date(2026, 10, 15)}}};
    const std::string text = output::exposure_text(answer);
    CHECK(text.find("\nA-12 to A-13: no sun here on any day of the year.\n"
                    "A-15: no sun here on any day of the year.\n"
                    "A-16: none on these days; sun from 27 February to 15 October.\n") !=
          std::string::npos);
}

TEST_CASE("the JSON of exposure has its stable keys", "[output][property]") {
    const auto answer = invented_answer("A", true, 2);
    const auto json =
        nlohmann::json::parse(output::exposure_json(answer, {.command = "exposure",
                                                             .scene_name = "A garden",
                                                             .scene_file = "a.json",
                                                             .year = 2026,
                                                             .time_zone = "Europe/London",
                                                             .warnings = {}}));
    CHECK(json["format"] == "sunfleck-result");
    CHECK(json["from"] == "2026-06-21");
    CHECK(json["day_step"] == 1);
    REQUIRE(json["spots"].size() == 3);
    const auto& spot = json["spots"][1];
    CHECK(spot["receiver"] == "wall_n");
    for (const char* key : {"spot", "bench", "tier", "x_m", "y_m", "z_m", "receiver_height_m",
                            "mean", "least", "most", "days", "sunny_season"}) {
        CAPTURE(key);
        CHECK(spot.contains(key));
    }
    CHECK(spot["least"]["date"] == "2026-06-22");
    const auto& day = spot["days"][0];
    for (const char* key : {"sun_up_min", "full_min", "filtered_min", "shade_min", "effective_min",
                            "hot_full_min", "hot_effective_min"}) {
        CAPTURE(key);
        CHECK(day.contains(key));
        CHECK(spot["mean"].contains(key));
        CHECK(day["hours"][0].contains(key));
    }
    CHECK(day["first_sun_utc"] == "2026-06-21T04:00:00.000Z");
    CHECK(day["last_sun_utc"] == "2026-06-21T20:30:00.500Z");
    CHECK(day["hours"][0]["hour"] == "04:00");
    CHECK(day["hours"][0]["hour_start_utc"] == "2026-06-21T04:00:00.000Z");
    REQUIRE(day["spells"].size() == 1);
    CHECK(day["spells"][0]["kind"] == "full");
}

TEST_CASE("the CSV of exposure has a row per innermost item", "[output][property]") {
    const auto answer = invented_answer("A", true, 2);
    const auto days = lines_of(output::exposure_csv(answer, false));
    CHECK(days.size() == 1 + 3 * 2);
    const auto hours = lines_of(output::exposure_csv(answer, true));
    CHECK(hours.size() == 1 + 3 * 2 * 17);
    for (const auto* table : {&days, &hours}) {
        const auto commas = std::count(table->front().begin(), table->front().end(), ',');
        for (const std::string& row : *table) {
            CHECK(std::count(row.begin(), row.end(), ',') == commas);
        }
    }
    CHECK(days[1].rfind("A-12,A,1,0,0,0,crown,0.2,2026-06-21,1020,680,255,85,833,0,0,", 0) == 0);
}
