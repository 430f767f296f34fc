#pragma once

#include "sunfleck/exposure/exposure.h"
#include "sunfleck/scene/scene_file.h"

#include <catch2/catch.hpp>

#include <string>

/// An invented garden with one of each thing, for the pictures' tests.
namespace sunfleck::output::test {

inline constexpr const char* sample_garden_text = R"({
  "format": "sunfleck-scene", "version": 1,
  "site": {"name": "Fern & Moss <yard>", "latitude_deg": 51.5, "longitude_deg": -0.3,
           "time_zone": "Europe/London", "year": 2026, "plan_up_bearing_deg": 10},
  "benches": [
    {"id": "A", "name": "Long bench", "x_m": 1, "y_m": 2, "bearing_plan_deg": 90, "length_m": 3,
     "depth_m": 0.6, "height_m": 0.8, "spot_pitch_m": 0.5, "rows": 1},
    {"id": "B", "name": "Stage", "x_m": 5, "y_m": 4, "bearing_plan_deg": 90, "length_m": 2,
     "depth_m": 0.8, "spot_pitch_m": 0.5,
     "tiers": [{"height_m": 0.5, "set_back_m": 0, "depth_m": 0.4},
               {"height_m": 0.8, "set_back_m": 0.4, "depth_m": 0.4}]}],
  "post_stands": [{"id": "P1", "name": "Post 1", "x_m": 4.5, "y_m": 1, "height_m": 1.1}],
  "walls": [{"id": "W", "name": "South wall", "line_m": [[0, 0], [8, 0]], "height_m": 1.8,
             "thickness_cm": 22}],
  "fences": [{"id": "F", "name": "East fence", "line_m": [[8, 0], [8, 6]], "height_m": 1.8,
              "thickness_cm": 4, "porosity_percent": 30}],
  "buildings": [{"id": "H", "name": "House", "outline_m": [[0, 6], [6, 6], [6, 10], [0, 10]],
                 "eaves_height_m": 4, "roof": "gable", "ridge_height_m": 6,
                 "ridge_bearing_plan_deg": 90}],
  "cloths": [{"id": "N", "name": "Net", "corners_m": [[0.8, 1, 2.2], [4, 1, 2.2], [4, 2.6, 2.2],
              [0.8, 2.6, 2.2]], "shade_factor_percent": 40,
              "up": [{"from": "05-20", "to": "09-05"}]}],
  "trees": [{"id": "T", "name": "Rowan", "x_m": 6.5, "y_m": 1.5, "height_m": 4, "crown_base_m": 1.6,
             "crown_width_m": 2.4, "crown_form": "ellipsoid", "leaf_habit": "evergreen",
             "transmission_in_leaf_percent": 15, "trunk_diameter_cm": 15}]
})";

inline scene::Scene sample_garden() {
    const auto file = scene::SceneFile::parse(sample_garden_text, "sample.json");
    if (!file) FAIL(to_text(file.error().front()));
    return file->scene();
}

/// The sun of every spot on one day, at bare spots' height.
inline exposure::ExposureTable sun_of_all_spots(const scene::Scene& scene, Date date) {
    const auto spots = scene::spots_of(scene);
    exposure::ExposureRequest request{.from = date, .to = date};
    for (std::size_t i = 0; i < spots.size(); ++i) request.receivers.push_back({.spot = i});
    const auto table = exposure::compute_exposure(scene, request);
    if (!table) FAIL(to_text(table.error().front()));
    return *table;
}

}  // namespace sunfleck::output::test
