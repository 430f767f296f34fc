#include "geometry/builders.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace sunfleck::geometry {
namespace {

// exp(-k diameter) for a crown that lets nothing through: dark after a thousandth of its way.
constexpr double least_transmission = 1e-300;

double extinction_per_m(double transmission, double diameter_m) {
    const double k = -std::log(std::clamp(transmission, least_transmission, 1.0)) / diameter_m;
    return k > 0.0 ? k : 0.0;
}

/// Middle days of leaf change where the tree gives none: as common for broad-leaved trees in
/// lowlands near 50 degrees (from memory), half a year later in the south.
MonthDay leaf_out_of(const scene::Tree& tree, Latitude latitude) {
    using namespace std::chrono;
    if (tree.leaf_out) return *tree.leaf_out;
    return latitude.is_south() ? October / 28 : April / 28;
}
MonthDay leaf_fall_of(const scene::Tree& tree, Latitude latitude) {
    using namespace std::chrono;
    if (tree.leaf_fall) return *tree.leaf_fall;
    return latitude.is_south() ? May / 1 : October / 30;
}

/// The trunk's section: its mean silhouette over all directions, perimeter / pi, is the diameter.
Outline trunk_section(Vec2 middle, double diameter_m) {
    constexpr int sides = 12;
    const double radius =
        0.5 * std::numbers::pi * diameter_m / (sides * std::sin(std::numbers::pi / sides));
    Outline section;
    for (int i = 0; i < sides; ++i) {
        const double angle = 2.0 * std::numbers::pi * i / sides;
        section.push_back(
            {middle.x + radius * std::cos(angle), middle.y + radius * std::sin(angle)});
    }
    return section;
}

/// How far above the crown's lowest level the trunk's edge enters it: an ellipsoid touches that
/// level only at its middle.
double trunk_in_crown_m(const scene::Tree& tree) {
    if (tree.crown_form != scene::CrownForm::ellipsoid) return 0.0;
    const double narrowest = std::min(tree.crown_width_m, tree.crown_width_across_m);
    const double share = std::min(1.0, tree.trunk_diameter_m / narrowest);
    return 0.5 * (tree.height_m - tree.crown_base_m) * (1.0 - std::sqrt(1.0 - share * share));
}

}  // namespace

std::vector<Piece> pieces_of(const scene::Tree& tree, const Terrain& terrain, Latitude latitude) {
    const Vec2 middle = terrain.world(tree.position);
    const double base_z = terrain.base_z(middle, tree.base_z_m);
    const Vec2 axis = terrain.towards(tree.crown_bearing);
    Crown crown;
    crown.form = tree.crown_form;
    crown.base_centre = {middle.x, middle.y, base_z + tree.crown_base_m};
    crown.height_m = tree.height_m - tree.crown_base_m;
    crown.half_width_m = 0.5 * tree.crown_width_m;
    crown.half_across_m = 0.5 * tree.crown_width_across_m;
    crown.axis = {axis.x, axis.y, 0.0};
    crown.diameter_m = 0.5 * (tree.crown_width_m + tree.crown_width_across_m);
    std::vector<Piece> pieces;
    const bool has_crown =
        crown.height_m > 0.0 && crown.half_width_m > 0.0 && crown.half_across_m > 0.0;
    if (has_crown) {
        Piece piece;
        piece.body = crown;
        piece.k_in_leaf_per_m = extinction_per_m(tree.transmission_in_leaf, crown.diameter_m);
        piece.k_bare_per_m = extinction_per_m(tree.transmission_bare, crown.diameter_m);
        piece.leaf_habit = tree.leaf_habit;
        piece.leaf_out = leaf_out_of(tree, latitude);
        piece.leaf_fall = leaf_fall_of(tree, latitude);
        pieces.push_back(std::move(piece));
    }
    const double trunk_top_m =
        has_crown ? tree.crown_base_m + trunk_in_crown_m(tree) : tree.height_m;
    if (tree.trunk_diameter_m > 0.0 && trunk_top_m > 0.0) {
        const HeightPlane foot = terrain.foot(tree.base_z_m);
        add_solid(pieces, cut_below(prism(trunk_section(middle, tree.trunk_diameter_m), foot,
                                          foot.raised(trunk_top_m + 10.0)),
                                    level(base_z + trunk_top_m)));
    }
    return pieces;
}

}  // namespace sunfleck::geometry
