#include "sunfleck/scene/new_scene.h"

#include "sunfleck/base/json_text.h"
#include "sunfleck/scene/bench_frame.h"
#include "sunfleck/scene/footprint.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::scene {
namespace {

/// To the centimetre, as a tape gives it.
std::string metres(double value_m) {
    return json_number(std::round(value_m * 100.0) / 100.0 + 0.0);
}

std::string point(Vec2 p) {
    return "[" + metres(p.x) + ", " + metres(p.y) + "]";
}

/// The garden with its bench, for its frame and spots.
Scene sketch(const FirstGarden& garden) {
    Scene scene;
    scene.site.plan_up_bearing = Angle::degrees(garden.plan_up_bearing_deg);
    Bench bench;
    bench.label = {"A", "First bench", "/benches/0"};
    bench.bearing = Angle::degrees(garden.bench_bearing_deg);
    bench.length_m = garden.bench_length_m;
    bench.depth_m = garden.bench_depth_m;
    bench.tiers = {{.height_m = garden.bench_height_m, .depth_m = garden.bench_depth_m}};
    const Vec2 corner{2.0, 3.0};
    const Vec2 along = PlanFrame(scene).plan_direction(bench.bearing);
    const Vec2 across{-along.y, along.x};
    const Vec2 right = corner + bench.length_m * along;
    bench.outline = {corner, right, right + bench.depth_m * across,
                     corner + bench.depth_m * across};
    scene.benches = {bench};
    return scene;
}

std::string site_json(const FirstGarden& garden) {
    return "{\"name\": " + json_quoted(garden.name) +
           ", \"latitude_deg\": " + json_number(garden.latitude_deg) +
           ", \"longitude_deg\": " + json_number(garden.longitude_deg) +
           ", \"time_zone\": " + json_quoted(garden.time_zone) +
           ", \"plan_up_bearing_deg\": " + json_number(garden.plan_up_bearing_deg) + "}";
}

std::string bench_json(const FirstGarden& garden, const Bench& bench) {
    return "{\"id\": \"A\", \"name\": \"First bench\", \"x_m\": " + metres(bench.outline[0].x) +
           ", \"y_m\": " + metres(bench.outline[0].y) +
           ", \"bearing_deg\": " + json_number(garden.bench_bearing_deg) +
           ", \"length_m\": " + json_number(garden.bench_length_m) +
           ", \"depth_m\": " + json_number(garden.bench_depth_m) +
           ", \"height_m\": " + json_number(garden.bench_height_m) + ", \"spot_pitch_m\": 0.3}";
}

std::string example_shade_json(const Bench& bench, const BenchFrame& frame) {
    constexpr double wall_away_m = 1.0;
    constexpr double wall_beyond_m = 0.5;
    constexpr double tree_away_m = 4.0;
    const Vec2 wall_from = frame.to_plan({-wall_beyond_m, bench.depth_m + wall_away_m});
    const Vec2 wall_to =
        frame.to_plan({bench.length_m + wall_beyond_m, bench.depth_m + wall_away_m});
    const Vec2 trunk = frame.to_plan({-tree_away_m, -tree_away_m});
    return ",\n  \"walls\": [\n    {\"id\": \"W\", \"name\": \"Example wall\", \"line_m\": [" +
           point(wall_from) + ", " + point(wall_to) +
           "], \"height_m\": 1.8, \"thickness_cm\": 22, \"note\": \"An example behind the bench: "
           "change or delete it.\"}\n  ],\n  \"trees\": [\n    {\"id\": \"T\", \"name\": "
           "\"Example tree\", \"x_m\": " +
           metres(trunk.x) + ", \"y_m\": " + metres(trunk.y) +
           ", \"height_m\": 6, \"crown_base_m\": 2, \"crown_width_m\": 4, \"leaf_habit\": "
           "\"evergreen\", \"transmission_in_leaf_percent\": 10, \"note\": \"An example: change "
           "or delete it.\"}\n  ]";
}

/// Three common trees of three sizes.
std::vector<Pot> example_pots() {
    const auto pot = [](const char* id, const char* name, const char* species, double length_m,
                        double width_m, double height_m) {
        Pot made;
        made.label = {id, name, ""};
        made.species = species;
        made.pot_length_m = length_m;
        made.pot_width_m = width_m;
        made.pot_height_m = height_m;
        return made;
    };
    return {pot("M01", "Example maple", "Acer palmatum", 0.11, 0.09, 0.045),
            pot("J01", "Example juniper", "Juniperus chinensis", 0.11, 0.09, 0.045),
            pot("P01", "Example pine", "Pinus sylvestris", 0.20, 0.15, 0.06)};
}

/// The example pots that find room on the bench, at its first spots.
std::string example_pots_json(const std::vector<Spot>& spots) {
    const Footprints footprints(spots);
    std::vector<bool> is_taken(spots.size(), false);
    std::string json;
    for (const Pot& pot : example_pots()) {
        for (std::size_t first = 0; first < spots.size(); ++first) {
            const auto cells = footprints.cells_covered(pot, first);
            const auto taken = [&is_taken](std::size_t cell) { return is_taken[cell]; };
            if (!cells || std::any_of(cells->begin(), cells->end(), taken)) continue;
            for (const std::size_t cell : *cells) is_taken[cell] = true;
            json += (json.empty() ? "\n    " : ",\n    ");
            json += "{\"id\": " + json_quoted(pot.label.id) +
                    ", \"name\": " + json_quoted(pot.label.name) +
                    ", \"species\": " + json_quoted(pot.species) +
                    ", \"spot\": " + json_quoted(spots[first].id) +
                    ", \"pot_length_cm\": " + metres(100.0 * pot.pot_length_m) +
                    ", \"pot_width_cm\": " + metres(100.0 * pot.pot_width_m) +
                    ", \"pot_height_cm\": " + metres(100.0 * pot.pot_height_m) + "}";
            break;
        }
    }
    return json.empty() ? "[]" : "[" + json + "\n  ]";
}

}  // namespace

std::string first_scene_text(const FirstGarden& garden) {
    const Scene scene = sketch(garden);
    const Bench& bench = scene.benches.front();
    const BenchFrame frame(PlanFrame(scene), bench);
    std::string text = "{\n  \"format\": \"sunfleck-scene\",\n  \"version\": 1,\n  \"site\": " +
                       site_json(garden) + ",\n  \"benches\": [\n    " + bench_json(garden, bench) +
                       "\n  ]";
    if (garden.has_examples) text += example_shade_json(bench, frame);
    text += ",\n  \"pots\": " +
            (garden.has_examples ? example_pots_json(spots_of(scene)) : std::string("[]"));
    return text + "\n}\n";
}

}  // namespace sunfleck::scene
