// Growers' gardens written as scene files and asked of the built program, against sun times worked
// by hand: spherical formulas with a Fourier series for the declination, solar time, point sun, no
// refraction; independent of this program. Stated tolerance: 3 min, 6 min where one end is sunrise
// or sunset, dates 2 days.
#include "base/within.h"
#include "cli/run_program.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

using namespace sunfleck::cli_test;
using nlohmann::json;
using sunfleck::test::within;

namespace {

constexpr double time_min = 3.0;
constexpr double rise_set_min = 6.0;

/// A scene file, and the program's answers about it.
class Garden {
  public:
    explicit Garden(const std::string& things, const std::string& site)
        : path_(scratch_.path("garden.json")) {
        write_text(path_, R"({"format": "sunfleck-scene", "version": 1, "site": {)" + site + "}, " +
                              things + "}");
    }

    [[nodiscard]] json answer(std::vector<std::string> words) const {
        words.insert(words.begin() + 1, path_);
        words.emplace_back("--json");
        const Answer answer = run_program(words);
        CAPTURE(answer.err, answer.out.substr(0, 400));
        REQUIRE(answer.code == 0);
        return json::parse(answer.out);
    }
    /// The spot's one day.
    [[nodiscard]] json day(const std::string& spot, const std::string& date) const {
        const json table = answer({"exposure", "--date", date, "--spots", spot});
        return table["spots"].at(0)["days"].at(0);
    }
    /// Minutes from solar noon to an instant of the answer.
    [[nodiscard]] double after_noon_min(const std::string& date, const json& instant) const {
        const json sun = answer({"sun", "--date", date});
        return minutes(instant) - minutes(sun["days"].at(0)["solar_noon_utc"]);
    }

  private:
    // The day of the month and the time of "2026-06-21T12:30:00.000Z", in minutes.
    static double minutes(const std::string& utc) {
        return std::stod(utc.substr(8, 2)) * 1440.0 + std::stod(utc.substr(11, 2)) * 60.0 +
               std::stod(utc.substr(14, 2)) + std::stod(utc.substr(17, 6)) / 60.0;
    }

    ScratchFolder scratch_;
    std::string path_;
};

}  // namespace

TEST_CASE("the program knows a balcony's sun in June and December", "[cli][scenario]") {
    // The façade looks to 135 degrees, up on the plan; the slab ends over the railing 2.4 m above
    // the crowns, the glass is 1.4 m behind; both as good as endless.
    const Garden balcony(
        R"("post_stands": [
            {"id": "inner", "x_m": 0, "y_m": -1.10, "height_m": 0.8, "receiver_height_m": 0.2},
            {"id": "outer", "x_m": 0, "y_m": -0.30, "height_m": 0.8, "receiver_height_m": 0.2}],
           "cloths": [{"id": "slab", "shade_factor_percent": 100, "corners_m": [[-90, -1.6, 3.4],
            [90, -1.6, 3.4], [90, 0, 3.4], [-90, 0, 3.4]]}],
           "walls": [{"id": "glass", "line_m": [[-90, -1.5], [90, -1.5]], "height_m": 3.5,
            "thickness_cm": 20}])",
        R"("name": "Balcony", "latitude_deg": 41.4, "longitude_deg": 2.2,
           "plan_up_bearing_deg": 135, "time_zone": "Europe/Madrid")");
    struct Row {
        const char* spot;
        const char* date;
        double last_min;
    };
    for (const Row& row : {Row{"inner", "2026-06-21", -81.0}, Row{"outer", "2026-06-21", 34.0},
                           Row{"inner", "2026-12-21", 161.0}, Row{"outer", "2026-12-21", 190.0}}) {
        CAPTURE(row.spot, row.date);
        const json day = balcony.day(row.spot, row.date);
        CHECK(balcony.after_noon_min(row.date, day["last_sun_utc"]) ==
              within(row.last_min, time_min));
    }
    CHECK(balcony.day("inner", "2026-06-21")["full_min"].get<double>() ==
          within(6 * 60 + 8, rise_set_min));
    CHECK(balcony.day("inner", "2026-12-21")["full_min"].get<double>() ==
          within(7 * 60 + 11, rise_set_min));
}

TEST_CASE("the program knows a court's sun, and where there is none", "[cli][scenario]") {
    const Garden court(
        R"("post_stands": [
            {"id": "north", "x_m": 3.5, "y_m": 8.0, "height_m": 0.7, "receiver_height_m": 0.2},
            {"id": "middle", "x_m": 3.5, "y_m": 4.5, "height_m": 0.7, "receiver_height_m": 0.2},
            {"id": "south", "x_m": 3.5, "y_m": 1.0, "height_m": 0.7, "receiver_height_m": 0.2}],
           "walls": [{"id": "W", "line_m": [[-0.1, -0.1], [7.1, -0.1], [7.1, 9.1], [-0.1, 9.1],
            [-0.1, -0.1]], "height_m": 6, "thickness_cm": 20}])",
        R"("name": "Court", "latitude_deg": 48.9, "longitude_deg": 2.3,
           "time_zone": "Europe/Paris")");
    const auto full_min = [&](const char* spot, const char* date) {
        return court.day(spot, date)["full_min"].get<double>();
    };
    CHECK(full_min("north", "2026-03-20") == within(193.0, time_min));
    CHECK(full_min("north", "2026-06-21") == within(289.0, time_min));
    CHECK(full_min("middle", "2026-06-21") == within(289.0, time_min));
    CHECK(full_min("middle", "2026-03-20") <= 0.0);
    const json march = court.day("north", "2026-03-20");
    CHECK(court.after_noon_min("2026-03-20", march["first_sun_utc"]) == within(-97.0, time_min));
    CHECK(court.after_noon_min("2026-03-20", march["last_sun_utc"]) == within(97.0, time_min));

    // Asked on a day without sun, it tells the year's sunny part, or that there is none.
    const json winter = court.answer({"exposure", "--date", "2026-12-21"});
    const json& north = winter["spots"].at(0)["sunny_season"];
    CHECK(north["first"].get<std::string>() >= "2026-02-25");
    CHECK(north["first"].get<std::string>() <= "2026-03-01");
    CHECK(north["last"].get<std::string>() >= "2026-10-13");
    CHECK(north["last"].get<std::string>() <= "2026-10-17");
    const json& south = winter["spots"].at(2)["sunny_season"];
    CHECK(south["first"].is_null());
    CHECK(south["last"].is_null());
}

TEST_CASE("the program knows when a slope's uphill ground takes the sun", "[cli][scenario]") {
    const Garden slope(
        R"("ground": {"slope_deg": 12, "downhill_bearing_deg": 45},
           "post_stands": [{"id": "P", "x_m": 0, "y_m": 0, "height_m": 0.8}])",
        R"("name": "Slope", "latitude_deg": 47, "longitude_deg": 8,
           "time_zone": "Europe/Zurich")");
    struct Row {
        const char* date;
        double hidden_min;
    };
    for (const Row& row :
         {Row{"2026-12-21", 151.0}, Row{"2026-02-01", 198.0}, Row{"2026-03-20", 300.0}}) {
        CAPTURE(row.date);
        const json day = slope.day("P", row.date);
        CHECK(slope.after_noon_min(row.date, day["last_sun_utc"]) ==
              within(row.hidden_min, time_min));
    }
}

TEST_CASE("the program tells a southern summer by its own clock and compass", "[cli][scenario]") {
    const Garden wall(
        R"("post_stands": [{"id": "P", "x_m": 0, "y_m": 0, "height_m": 0.8}],
           "cloths": [{"id": "level", "shade_factor_percent": 50, "corners_m": [[-0.5, -1, 2],
            [1.5, -1, 2], [1.5, 1, 2], [-0.5, 1, 2]]}])",
        R"("name": "Wall", "latitude_deg": -37.8, "longitude_deg": 145,
           "time_zone": "Australia/Melbourne")");
    const json day = wall.answer({"sun", "--date", "2026-01-15"})["days"].at(0);
    const std::string noon = day["solar_noon_local"];
    CHECK(noon.substr(0, 13) == "2026-01-15T13");
    CHECK(std::stod(noon.substr(14, 2)) == within(29.0, time_min));
    CHECK(noon.substr(23) == "+11:00");
    CHECK(day["noon_altitude_deg"].get<double>() == within(73.4, 0.3));
    const json at_noon = wall.answer({"sun", "--at", "2026-01-15T13:29"})["instants"].at(0);
    const double north = at_noon["azimuth_deg"];
    CHECK(std::min(north, 360.0 - north) < 2.0);
    // The net 1 m over the crown reaches 0.5 m to its west. Its shadow goes 0.89 m east by three
    // hours after noon, so that the late sun comes in under it.
    const json shade = wall.day("P", "2026-01-15");
    double late_full_min = 0.0;
    for (const json& hour : shade["hours"]) {
        const std::string clock = hour["hour"];
        if (clock >= "17:00" && clock < "18:00") late_full_min += hour["full_min"].get<double>();
    }
    CHECK(late_full_min > 55.0);
}
