#pragma once

#include "sunfleck/base/units.h"
#include "sunfleck/scene/scene.h"

#include <optional>
#include <string>
#include <string_view>

/// A first scene from the few things that a grower can say without a survey.
namespace sunfleck::scene {

struct FirstGarden {
    std::string name = "My garden";
    double latitude_deg = 0.0;
    double longitude_deg = 0.0;
    std::string time_zone;
    double plan_up_bearing_deg = 0.0;  ///< true bearing of the plan's up
    double bench_length_m = 2.4;
    double bench_depth_m = 0.6;
    double bench_height_m = 0.8;
    double bench_bearing_deg = 90.0;  ///< true, of the front edge; the bench lies to its left
    /// Also a wall behind the bench, a tree and three pots, named as examples to change or delete.
    bool has_examples = true;
};

/// The text of a scene with one bench of that garden, which reads without an error when the
/// garden's figures are within the ranges of their keys.
[[nodiscard]] std::string first_scene_text(const FirstGarden& garden);

// What people answer. Each gives nothing for a text that is no such answer.

/// Metres of "2.4", "2,4 m", "240 cm", "2400 mm", "8 ft" or "96 in".
[[nodiscard]] std::optional<double> spoken_length_m(std::string_view text);
/// Degrees of "51.5", "51,5 N", "0.3 W", "51 30 N", "51°30'36\"N"; south and west are negative.
/// Between -180 and 180.
[[nodiscard]] std::optional<double> spoken_coordinate_deg(std::string_view text);
/// Degrees from north of "135", "135°", "SE", "south-east", "north north east"; 0 to 360.
[[nodiscard]] std::optional<double> spoken_bearing_deg(std::string_view text);

}  // namespace sunfleck::scene
