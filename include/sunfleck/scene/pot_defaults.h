#pragma once

#include "sunfleck/scene/scene.h"

#include <span>
#include <string_view>

namespace sunfleck::scene {

/// A usual pot of one of the trade's sizes and the tree in it. Common practice, no source; the
/// names of the classes and the trees' heights agree in five published lists, their limits differ.
struct PotExample {
    std::string_view size_class;
    double length_m = 0.0;
    double width_m = 0.0;
    double height_m = 0.0;  ///< of the pot
    double crown_width_m = 0.0;
    double crown_height_m = 0.0;  ///< of the tree above the pot's rim
};

/// From the smallest to the largest.
[[nodiscard]] std::span<const PotExample> pot_examples();

/// Soil in a pot of those outside measures, litres: 0.85 of the box. Common practice, no source: a
/// rectangular pot holds 0.8 to 0.9 of length x width x inside depth.
[[nodiscard]] double soil_of_box_l(double length_m, double width_m, double height_m);

/// Weight of a watered pot with its tree, kg: 0.05 + 2.0 per litre of soil. Common practice, no
/// source; fitted to the weights usual for each size, and within each of their ranges.
[[nodiscard]] double wet_weight_kg(double soil_l);

/// Fills in what the owner left out of each pot (a size of 0 is not given):
/// - sizes from the usual pot at the same length, else soil volume, else crown width, between the
///   two nearest examples in proportion; a pot of which nothing is known counts as a shohin, the
///   most common size (common practice, no source);
/// - soil from the pot's sizes, weight from the soil;
/// - wants from the species table with the owner's own on top; without either, the middle ones of
///   Wants, and `has_known_wants` is false.
/// What the owner gave is never changed.
void complete_pots(Scene& scene);

}  // namespace sunfleck::scene
