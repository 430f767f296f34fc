#include "sunfleck/scene/meaning.h"

#include "sunfleck/scene/scene_file.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <chrono>
#include <set>
#include <sstream>
#include <string>

namespace sunfleck::scene {
namespace {

/// A garden with nothing wrong in it. Each test spoils one thing.
const std::string sound = R"({
  "format": "sunfleck-scene", "version": 1,
  "site": {"name": "Test yard", "latitude_deg": 51.5, "longitude_deg": -0.3, "time_zone": "Europe/London",
    "year": 2026, "magnetic_declination_deg": 1.2},
  "benches": [
    {"id": "A", "name": "Long bench", "x_m": 0, "y_m": 0, "bearing_deg": 90, "length_m": 3, "depth_m": 0.6,
      "height_m": 0.8, "max_load_kg": 100},
    {"id": "B", "name": "Stage", "x_m": 0, "y_m": 3, "bearing_deg": 90, "length_m": 2.4, "depth_m": 0.6, "tiers": [
      {"height_m": 0.5, "depth_m": 0.3, "max_load_kg": 60}, {"height_m": 0.75, "set_back_m": 0.3, "depth_m": 0.3}]},
    {"id": "C", "outline_m": [[5, 0], [7, 0], [7, 1], [5, 1]], "height_m": 0.7,
      "spots": [{"along_m": 0.4, "from_front_m": 0.3}, {"along_m": 1.4, "from_front_m": 0.3}]}],
  "post_stands": [{"id": "P", "x_m": 9, "y_m": 1, "height_m": 1.1}],
  "walls": [{"id": "W", "line_m": [[-1, -1], [8, -1]], "height_m": 1.8}],
  "buildings": [{"id": "H", "name": "House", "outline_m": [[0, 10], [8, 10], [8, 16], [0, 16]], "eaves_height_m": 5}],
  "cloths": [{"id": "N", "name": "Net", "corners_m": [[0, 0, 2.2], [3, 0, 2.2], [3, 2, 2.2], [0, 2, 2.2]],
    "shade_factor_percent": 40, "up": [{"from": "05-20", "to": "09-05"}], "flaps": [{"edge": 1, "drop_m": 0.9}]}],
  "lath_panels": [{"id": "L", "x_m": 5, "y_m": 3, "height_m": 2.2, "bearing_deg": 0, "length_m": 2, "width_m": 1,
    "slat_width_mm": 40, "gap_mm": 40, "thickness_mm": 15}],
  "trees": [{"id": "T", "name": "Lime", "x_m": -4, "y_m": -4, "height_m": 9, "crown_base_m": 2.5, "crown_width_m": 5,
    "leaf_out": "04-25", "leaf_fall": "11-01", "transmission_in_leaf_percent": 10, "transmission_bare_percent": 50}],
  "pots": [
    {"id": "M07", "species": "Acer palmatum", "spot": "A-3", "pot_length_cm": 11, "pot_width_cm": 9, "pot_height_cm": 4.5, "soil_l": 0.38, "weight_kg": 0.9, "crown_width_cm": 18, "crown_height_cm": 20},
    {"id": "J02", "species": "Juniperus chinensis", "spot": "A-7", "pinned": true, "pot_length_cm": 34, "pot_width_cm": 25, "pot_height_cm": 7.5, "crown_width_cm": 50, "not_on": ["B", "P"]},
    {"id": "K1", "species": "Olive", "spot": "C-1"}],
  "seasons": [{"name": "warm", "first": "05-01"}, {"name": "hot", "first": "06-21"}, {"name": "cool", "first": "09-10"}],
  "lifting": {"people": 2, "limit_kg": 10}
})";

std::string spoilt(const std::string& from, const std::string& to) {
    std::string text = sound;
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

Problems problems_of(const std::string& text) {
    const auto file = SceneFile::parse(text, "yard.json");
    return file ? file->warnings() : file.error();
}

std::string listed(const Problems& problems) {
    std::string text;
    for (const Problem& problem : problems) text += problem.code + ": " + to_text(problem) + "\n";
    return text;
}

/// The JSON value that begins at the problem's line and column, read by another library.
nlohmann::json value_at(const std::string& text, const Problem& problem) {
    std::istringstream lines(text);
    std::string line;
    for (int i = 1; i < problem.line; ++i) std::getline(lines, line);
    lines.ignore(problem.column - 1);
    nlohmann::json value;
    lines >> value;
    return value;
}

struct Slip {
    std::string from;
    std::string to;
    std::string code;
    Severity severity;
    std::string pointer;
    std::string told;      ///< part of the message or the mend
    std::size_t more = 0;  ///< further problems that must follow from it
};

constexpr auto error = Severity::error;
constexpr auto warning = Severity::warning;

const std::vector<Slip>& slips() {
    static const std::vector<Slip> all{
        // Site. Europe/London keeps northern summer time; the sun of Tokyo is 9.3 h away.
        {"\"longitude_deg\": -0.3", "\"longitude_deg\": 139.7", "zone_far_from_longitude", error,
         "/site/longitude_deg", "9.3 h"},
        {"\"longitude_deg\": -0.3", "\"longitude_deg\": 33", "zone_far_from_longitude", warning,
         "/site/longitude_deg", "2.2 h"},
        {"\"latitude_deg\": 51.5, \"longitude_deg\": -0.3, \"time_zone\": \"Europe/London\"",
         "\"latitude_deg\": 51.5, \"longitude_deg\": 74, \"time_zone\": \"America/New_York\"",
         "zone_far_from_longitude", error, "/site/longitude_deg", "longitude −74.00"},
        {"\"latitude_deg\": 51.5, \"longitude_deg\": -0.3",
         "\"latitude_deg\": -0.3, \"longitude_deg\": 51.5", "zone_far_from_longitude", warning,
         "/site/longitude_deg", "swapped"},
        {"\"latitude_deg\": 51.5, \"longitude_deg\": -0.3, \"time_zone\": \"Europe/London\"",
         "\"latitude_deg\": -3.7, \"longitude_deg\": 40.4, \"time_zone\": \"Europe/Madrid\"",
         "zone_in_other_hemisphere", warning, "/site/latitude_deg", "swapped"},
        {"\"latitude_deg\": 51.5", "\"latitude_deg\": -51.5", "zone_in_other_hemisphere", warning,
         "/site/latitude_deg", "latitude 51.50", 1},
        {"\"latitude_deg\": 51.5, \"longitude_deg\": -0.3, \"time_zone\": \"Europe/London\",\n    "
         "\"year\": 2026, \"magnetic_declination_deg\": 1.2",
         "\"latitude_deg\": 40.7, \"longitude_deg\": -74, \"time_zone\": \"America/New_York\",\n   "
         " \"year\": 2026, \"magnetic_declination_deg\": 12.5",
         "declination_sign", warning, "/site/magnetic_declination_deg", "−12.5"},
        {"\"magnetic_declination_deg\": 1.2", "\"magnetic_declination_deg\": 20",
         "declination_far_off", warning, "/site/magnetic_declination_deg", "east"},
        {"\"magnetic_declination_deg\": 1.2",
         "\"magnetic_declination_deg\": 1.2, \"normals\": {\"max_temperature_c\": [7, 8, 11, 14, "
         "17, 9, 23, 22, 19, 15, 10, 8], \"min_temperature_c\": [2, 2, 3, 5, 8, 11, 13, 13, 11, 8, "
         "5, 3]}",
         "temperatures_swapped", error, "/site/normals/max_temperature_c/5", "month 6"},
        // Benches.
        {"[[5, 0], [7, 0], [7, 1], [5, 1]]", "[[5, 0], [5, 0], [7, 1], [5, 1]]", "outline_front",
         error, "/benches/2/outline_m", "first two corners"},
        {"[[5, 0], [7, 0], [7, 1], [5, 1]]", "[[5, 1], [7, 1], [7, 0], [5, 0]]",
         "outline_clockwise", error, "/benches/2/outline_m", "counter-clockwise"},
        {"\"eaves_height_m\": 5",
         "\"eaves_height_m\": 5, \"roof\": \"gable\", \"ridge_height_m\": 4", "ridge_below_eaves",
         error, "/buildings/0/ridge_height_m", "above the ground"},
        {"[[5, 0], [7, 0], [7, 1], [5, 1]]", "[[5, 0], [7, 0], [5, 1], [7, 1.5]]",
         "outline_crosses_itself", error, "/benches/2/outline_m", "corner 2 to 3"},
        {"[[0, 10], [8, 10], [8, 16], [0, 16]]", "[[0, 10], [8, 16], [8, 10], [0, 16]]",
         "outline_crosses_itself", error, "/buildings/0/outline_m", "House"},
        {"[[0, 10], [8, 10], [8, 16], [0, 16]]", "[[0, 10], [8, 10], [8, 10.000001]]",
         "outline_without_area", error, "/buildings/0/outline_m", "nothing"},
        {"\"set_back_m\": 0.3, \"depth_m\": 0.3", "\"set_back_m\": 0.3, \"depth_m\": 0.4",
         "tier_past_bench", error, "/benches/1/tiers", "70 cm"},
        {"{\"height_m\": 0.75, \"set_back_m\": 0.3, \"depth_m\": 0.3}",
         "{\"height_m\": 0.51, \"set_back_m\": 0.2, \"depth_m\": 0.3}", "tiers_inside_each_other",
         error, "/benches/1/tiers", "tiers 1 and 2"},
        {"{\"height_m\": 0.75, \"set_back_m\": 0.3, \"depth_m\": 0.3}",
         "{\"height_m\": 0.60, \"set_back_m\": 0.2, \"depth_m\": 0.3}", "no_headroom", warning,
         "/benches/1/tiers", "7 cm"},
        {"\"height_m\": 0.8, \"max", "\"height_m\": 2.4, \"max", "bench_out_of_reach", warning,
         "/benches/0", "2.40 m", 1},
        {"{\"along_m\": 1.4, \"from_front_m\": 0.3}", "{\"along_m\": 2.4, \"from_front_m\": 0.3}",
         "spot_off_bench", error, "/benches/2/spots/1", "Spot 2"},
        {"{\"along_m\": 1.4, \"from_front_m\": 0.3}", "{\"along_m\": 0.4, \"from_front_m\": 0.31}",
         "spots_at_one_place", error, "/benches/2/spots/1", "same place"},
        {"{\"along_m\": 1.4, \"from_front_m\": 0.3}",
         "{\"along_m\": 1.4, \"from_front_m\": 0.3, \"tier\": 2}", "no_such_tier", error,
         "/benches/2/spots/1/tier", "1 tier"},
        // Things inside each other.
        {"\"x_m\": 0, \"y_m\": 3, \"bearing_deg\": 90",
         "\"x_m\": 1, \"y_m\": 12, \"bearing_deg\": 90", "no_ray_reaches", warning, "/benches/1",
         "inside House"},
        {"\"x_m\": 0, \"y_m\": 3, \"bearing_deg\": 90",
         "\"x_m\": -1.8, \"y_m\": 12, \"bearing_deg\": 90", "no_ray_reaches", warning, "/benches/1",
         "4 of 16 spots"},
        {"\"x_m\": 9, \"y_m\": 1, \"height_m\": 1.1",
         "\"x_m\": 9, \"y_m\": 1, \"height_m\": 1.1, \"z_m\": -3", "bench_below_ground", warning,
         "/post_stands/0", "1 of 1 spot"},
        {"\"x_m\": 0, \"y_m\": 3, \"bearing_deg\": 90",
         "\"x_m\": 0, \"y_m\": -1.3, \"bearing_deg\": 90", "wall_through_bench", warning,
         "/benches/1", "W runs through Stage (B)"},
        {"\"x_m\": -4, \"y_m\": -4", "\"x_m\": 0.5, \"y_m\": 0.2", "trunk_through_bench", warning,
         "/trees/0", "Lime"},
        {"\"x_m\": -4, \"y_m\": -4", "\"x_m\": 4, \"y_m\": 13", "trunk_inside_building", warning,
         "/trees/0", "House"},
        {"\"x_m\": 9, \"y_m\": 1, \"height_m\": 1.1",
         "\"x_m\": 1, \"y_m\": 0.5, \"height_m\": 0.85", "benches_inside_each_other", warning,
         "/post_stands/0", "Long bench (A)"},
        // Cloths, laths, walls.
        {"[3, 2, 2.2]", "[3, 2, -0.2]", "corner_below_ground", error, "/cloths/0/corners_m/2",
         "20 cm"},
        {"[3, 2, 2.2], [0, 2, 2.2]", "[0, 2, 2.2], [3, 2, 2.2]", "cloth_twisted", error,
         "/cloths/0/corners_m", "walks round"},
        {"[3, 2, 2.2], [0, 2, 2.2]", "[1, 0, 2.2], [2, 0, 2.2]", "cloth_without_area", error,
         "/cloths/0/corners_m", "one line"},
        {"[[0, 0, 2.2], [3, 0, 2.2], [3, 2, 2.2], [0, 2, 2.2]],\n    \"shade_factor_percent\": 40, "
         "\"up\": [{\"from\": \"05-20\", \"to\": \"09-05\"}], \"flaps\": [{\"edge\": 1, "
         "\"drop_m\": 0.9}]",
         "[[0, 0, 0.5], [3, 0, 0.5], [3, 2, 0.5], [0, 2, 0.5]],\n    \"shade_factor_percent\": 40",
         "cloth_under_bench", warning, "/cloths/0", "lower than the top of Long bench (A)"},
        {"\"drop_m\": 0.9", "\"drop_m\": 9", "flap_on_ground", warning, "/cloths/0/flaps/0/drop_m",
         "90 cm"},
        {"[3, 2, 2.2], [0, 2, 2.2]],\n    \"shade_factor_percent\": 40, \"up\": [{\"from\": "
         "\"05-20\", \"to\": \"09-05\"}], \"flaps\": [{\"edge\": 1",
         "[3, 2, 2.2]],\n    \"shade_factor_percent\": 40, \"up\": [{\"from\": "
         "\"05-20\", \"to\": \"09-05\"}], \"flaps\": [{\"edge\": 4",
         "edge_missing", error, "/cloths/0/flaps/0", "3 edges"},
        {"\"lifting\":",
         "\"meshes\": [{\"id\": \"X\", \"file\": \"shed.dxf\", \"x_m\": 0, \"y_m\": 0}], "
         "\"lifting\":",
         "mesh_kind", error, "/meshes/0/file", ".obj"},
        {"\"drop_m\": 0.9}", "\"drop_m\": 0.9}, {\"edge\": 1, \"drop_m\": 0.5}",
         "two_flaps_on_edge", error, "/cloths/0/flaps/1/edge", "same edge"},
        {"{\"from\": \"05-20\", \"to\": \"09-05\"}", "{\"from\": \"09-05\", \"to\": \"05-20\"}",
         "dates_swapped", warning, "/cloths/0/up/0", "from 05-20 to 09-05"},
        {"{\"from\": \"05-20\", \"to\": \"09-05\"}",
         "{\"from\": \"05-20\", \"to\": \"09-05\"}, {\"from\": \"09-01\", \"to\": \"10-01\"}",
         "stretches_overlap", warning, "/cloths/0/up/1", "overlap"},
        {"\"width_m\": 1,", "\"width_m\": 3, \"tilt_deg\": -80,", "laths_below_ground", error,
         "/lath_panels/0", "tilt_deg"},
        {"\"height_m\": 1.8}", "\"height_m\": 18}", "tall_wall", warning, "/walls/0/height_m",
         "1.80 m"},
        {"[[-1, -1], [8, -1]]", "[[-1, -1], [8, -1], [8, -1]]", "point_twice", error,
         "/walls/0/line_m/2", "twice"},
        {"\"height_m\": 1.8}", "\"height_m\": 1.8, \"thickness_cm\": 220}", "thick_wall", warning,
         "/walls/0/thickness_cm", "2.20 m", 2},
        // Trees.
        {"\"crown_base_m\": 2.5", "\"crown_base_m\": 25", "crown_base_above_top", error,
         "/trees/0/crown_base_m", "25.00 m"},
        {"\"crown_width_m\": 5", "\"crown_width_m\": 50", "crown_too_wide", warning,
         "/trees/0/crown_width_m", "50.00 m"},
        {"\"crown_width_m\": 5", "\"crown_width_m\": 0.5, \"trunk_diameter_cm\": 60",
         "trunk_too_wide", warning, "/trees/0/trunk_diameter_cm", "trunk"},
        {"\"height_m\": 9", "\"height_m\": 90", "tall_tree", warning, "/trees/0/height_m",
         "90.00 m"},
        {"\"leaf_out\": \"04-25\", \"leaf_fall\": \"11-01\"",
         "\"leaf_out\": \"11-01\", \"leaf_fall\": \"04-25\"", "leaves_fall_before_they_open", error,
         "/trees/0/leaf_fall", "before they open"},
        {"\"leaf_fall\": \"11-01\"", "\"leaf_fall\": \"05-10\"", "leaves_fall_before_they_open",
         error, "/trees/0/leaf_fall", "within six weeks"},
        {"\"leaf_out\": \"04-25\"", "\"leaf_habit\": \"evergreen\", \"leaf_out\": \"04-25\"",
         "leaf_dates_unused", warning, "/trees/0/leaf_habit", "evergreen"},
        {"\"transmission_in_leaf_percent\": 10", "\"transmission_in_leaf_percent\": 70",
         "bare_darker_than_leaf", warning, "/trees/0/transmission_bare_percent", "swapped"},
        // Seasons.
        {"{\"name\": \"hot\"", "{\"name\": \"warm\"", "season_twice", error, "/seasons/1/name",
         "warm"},
        {"\"first\": \"06-21\"", "\"first\": \"05-01\"", "season_day_twice", error,
         "/seasons/1/first", "same day"},
        // Ids.
        {"{\"id\": \"K1\"", "{\"id\": \"M07\"", "id_twice", error, "/pots/2/id", "M07"},
        // Pots and their places.
        {"\"spot\": \"A-3\"", "\"spot\": \"A-31\"", "no_such_spot", error, "/pots/0/spot", "A-20"},
        {"\"spot\": \"A-7\"", "\"spot\": \"AA-7\"", "no_such_spot", error, "/pots/1/spot", "A-7"},
        {"\"spot\": \"A-3\"", "\"spot\": \"A\"", "no_such_spot", error, "/pots/0/spot",
         "A-1 to A-20"},
        {"\"spot\": \"A-7\", ", "", "pinned_nowhere", error, "/pots/1/pinned", "nowhere"},
        {"[\"B\", \"P\"]", "[\"B\", \"D\"]", "no_such_place", error, "/pots/1/not_on/1", "D"},
        {"[\"B\", \"P\"]", "[\"A\", \"P\"]", "pinned_where_excluded", error, "/pots/1/not_on/0",
         "pinned at A-7"},
        {"\"spot\": \"C-1\"", "\"spot\": \"A-3\"", "two_pots_at_spot", error, "/pots/2/spot",
         "M07 and K1"},
        {"\"spot\": \"C-1\"", "\"spot\": \"A-7\", \"pinned\": true", "pins_clash", error,
         "/pots/2/spot", "Lift one"},
        {"\"spot\": \"C-1\"", "\"spot\": \"A-8\", \"pinned\": true", "pins_clash", error,
         "/pots/2/spot", "A-8"},
        {"\"spot\": \"C-1\"", "\"spot\": \"A-8\"", "pots_overlap", error, "/pots/2/spot", "A-8"},
        {"\"spot\": \"A-7\"", "\"spot\": \"A-10\"", "pot_does_not_fit", error, "/pots/1/spot",
         "34 cm long"},
        {"\"spot\": \"C-1\"",
         "\"spot\": \"C-1\", \"pot_length_cm\": 280, \"pot_width_cm\": 10, \"pot_height_cm\": 4",
         "pot_does_not_fit", warning, "/pots/2/spot", "2.80 m"},
        {"\"max_load_kg\": 100", "\"max_load_kg\": 11", "load_above_limit", warning, "/benches/0",
         "12 kg"},
        {"\"max_load_kg\": 100", "\"max_load_kg\": 10", "load_above_limit", error, "/benches/0",
         "pinned"},
        {"Acer palmatum", "Acer palmatun", "unknown_species", warning, "/pots/0/species",
         "Did you mean Acer palmatum"},
        {"\"species\": \"Olive\", ", "", "unknown_wants", warning, "/pots/2", "1 pot has"},
        {"\"soil_l\": 0.38", "\"wants\": {\"sun_min_h\": 6, \"sun_max_h\": 4}, \"soil_l\": 0.38",
         "wants_swapped", error, "/pots/0/wants/sun_min_h", "Swap"},
        {"\"soil_l\": 0.38", "\"soil_l\": 3.8", "soil_overflows", warning, "/pots/0/soil_l",
         "0.38 l", 1},
        {"\"weight_kg\": 0.9", "\"weight_kg\": 30", "odd_weight", warning, "/pots/0/weight_kg",
         "0.8 kg", 1},
        {"\"weight_kg\": 0.9, \"crown_width_cm\": 18",
         "\"weight_kg\": 0.9, \"crown_width_cm\": 180", "crown_too_wide", warning,
         "/pots/0/crown_width_cm", "1.80 m"},
        {"\"species\": \"Olive\"",
         "\"species\": \"Olive\", \"weight_kg\": 42, \"soil_l\": 20, \"pot_length_cm\": 55, "
         "\"pot_width_cm\": 40, \"pot_height_cm\": 12",
         "too_heavy_to_lift", warning, "/pots/2", "5 people"},
        {"\"pinned\": true", "\"pinned\": true, \"count\": 3", "pinned_batch", error,
         "/pots/1/pinned", "batch of 3"},
    };
    return all;
}

}  // namespace

TEST_CASE("The sound garden has nothing wrong", "[scene][property]") {
    const Problems problems = problems_of(sound);
    CAPTURE(listed(problems));
    CHECK(problems.empty());
}

TEST_CASE("Every slip is told once, in its place, with its mend", "[scene][property]") {
    for (const Slip& slip : slips()) {
        const std::string text = spoilt(slip.from, slip.to);
        const Problems problems = problems_of(text);
        CAPTURE(slip.to, slip.code, listed(problems));
        const auto is_it = [&slip](const Problem& p) { return p.code == slip.code; };
        REQUIRE(std::count_if(problems.begin(), problems.end(), is_it) == 1);
        const Problem& problem = *std::find_if(problems.begin(), problems.end(), is_it);
        CHECK(problem.severity == slip.severity);
        CHECK(problem.pointer == slip.pointer);
        CHECK((problem.message + problem.mend).find(slip.told) != std::string::npos);
        CHECK_FALSE(problem.mend.empty());
        CHECK(problem.file == "yard.json");
        // Its line and column are where the value at its pointer begins.
        const auto spoilt_scene = nlohmann::json::parse(text);
        CHECK(value_at(text, problem) ==
              spoilt_scene.at(nlohmann::json::json_pointer(problem.pointer)));
        CHECK(problems.size() == 1 + slip.more);
    }
}

TEST_CASE("A bench that runs into the slope is below the ground", "[scene][property]") {
    // Uphill to the east by tan 40: 3 m on, the ground is 2.5 m higher than a top of 0.8 m.
    const Problems problems = problems_of(
        spoilt("\"benches\": [",
               "\"ground\": {\"slope_deg\": 40, \"downhill_bearing_deg\": 270}, \"benches\": ["));
    REQUIRE(problems.size() == 3);
    for (const Problem& problem : problems) {
        CHECK(problem.code == "bench_below_ground");
        CHECK(problem.severity == Severity::error);
    }
    // The ground passes the top 0.8 / tan 40 = 0.95 m on: behind 0.15, 0.45 and 0.75 m.
    CHECK(problems[0].message.find("14 of 20 spots of Long bench (A)") == 0);
}

TEST_CASE("A tree taller than the room under the next tier is told", "[scene][property]") {
    std::string text =
        spoilt("\"set_back_m\": 0.3, \"depth_m\": 0.3", "\"set_back_m\": 0.2, \"depth_m\": 0.3");
    text.replace(text.find("\"spot\": \"C-1\""), 13, "\"spot\": \"B-1\"");
    const Problems problems = problems_of(text);
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].code == "too_tall_for_tier");
    CHECK(problems[0].severity == Severity::warning);
    CHECK(problems[0].message.find("22 cm up") != std::string::npos);
    text.replace(text.find("\"spot\": \"B-1\""), 13, "\"spot\": \"B-1\", \"pinned\": true");
    REQUIRE(problems_of(text).size() == 1);
    CHECK(problems_of(text)[0].severity == Severity::error);
}

TEST_CASE("Seasons may begin anywhere in the year, but go round once", "[scene][property]") {
    Scene scene = SceneFile::parse(sound, "yard.json")->scene();
    const auto first = [](unsigned month) {
        return std::chrono::month(month) / std::chrono::day(1);
    };
    scene.seasons = {{"a", first(9)}, {"b", first(12)}, {"c", first(3)}};
    CHECK(check_meaning(scene).empty());
    scene.seasons = {{"a", first(9)}, {"b", first(3)}, {"c", first(6)}, {"d", first(1)}};
    const Problems problems = check_meaning(scene);
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].code == "seasons_out_of_order");
    CHECK(problems[0].severity == Severity::warning);
}

TEST_CASE("Ids are compared after NFC", "[scene][property]") {
    Scene scene = SceneFile::parse(sound, "yard.json")->scene();
    scene.pots[0].label.id = "\xC3\xA9rable";
    scene.pots[2].label.id = "e\xCC\x81rable";
    const Problems problems = check_meaning(scene);
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].code == "id_twice");
    CHECK(problems[0].message.find("/pots/0") != std::string::npos);
}

TEST_CASE("A garden with far too many spots is refused before they are made", "[scene][property]") {
    Scene scene = SceneFile::parse(sound, "yard.json")->scene();
    Bench vast = scene.benches[0];
    vast.spot_pitch_m = 0.05;
    vast.length_m = 60.0;
    vast.depth_m = vast.tiers[0].depth_m = 20.0;
    for (int i = 0; i < 1000; ++i) scene.benches.push_back(vast);
    const auto start = std::chrono::steady_clock::now();
    const Problems problems = check_meaning(scene);
    CHECK(std::any_of(problems.begin(), problems.end(),
                      [](const Problem& p) { return p.code == "too_many_spots"; }));
    CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(20));
}

TEST_CASE("A southern garden's leaves and nets are judged by its own summer", "[scene][property]") {
    std::string text = spoilt(
        "\"latitude_deg\": 51.5, \"longitude_deg\": -0.3, \"time_zone\": \"Europe/London\",\n    "
        "\"year\": 2026, \"magnetic_declination_deg\": 1.2",
        "\"latitude_deg\": -37.8, \"longitude_deg\": 145, \"time_zone\": \"Australia/Melbourne\"");
    const auto codes = [](const Problems& problems) {
        std::set<std::string> all;
        for (const Problem& problem : problems) all.insert(problem.code);
        return all;
    };
    // Northern dates in a southern garden.
    CHECK((codes(problems_of(text)) == std::set<std::string>{"leaves_fall_before_they_open"}));
    const auto replace = [&text](const std::string& from, const std::string& to) {
        text.replace(text.find(from), from.size(), to);
    };
    replace("\"leaf_out\": \"04-25\", \"leaf_fall\": \"11-01\"",
            "\"leaf_out\": \"09-25\", \"leaf_fall\": \"05-10\"");
    CHECK(problems_of(text).empty());
    replace("{\"from\": \"05-20\", \"to\": \"09-05\"}", "{\"from\": \"03-01\", \"to\": \"11-15\"}");
    CHECK((codes(problems_of(text)) == std::set<std::string>{"dates_swapped"}));
}

}  // namespace sunfleck::scene
