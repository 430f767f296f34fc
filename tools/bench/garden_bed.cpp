#include "garden_bed.h"

#include "geometry/polyhedron.h"

#include <cmath>
#include <numbers>
#include <utility>

namespace sunfleck::bench {
namespace {

constexpr double receiver_height_m = 0.20;
constexpr double leg_m = 0.07;
constexpr double tier_depth_m = 0.36;
constexpr double board_m = 0.04;

Vec2 at(Stand stand, double s, double depth) {
    return stand.corner + s * stand.along + depth * geometry::left_of(stand.along);
}

Stand moved(Stand stand, double s, double depth) {
    return {at(stand, s, depth), stand.along};
}

/// The height plane that is `z_m` at the stand's corner and rises along its depth.
geometry::HeightPlane sloping(Stand stand, double z_m, double rise_per_m) {
    const Vec2 rise = rise_per_m * geometry::left_of(stand.along);
    return {z_m - dot(rise, stand.corner), rise};
}

}  // namespace

std::uint32_t GardenBed::begin(const std::string& kind) {
    const auto number = static_cast<std::uint32_t>(garden_.objects.size());
    const std::string id = kind + "_" + std::to_string(number);
    garden_.objects.push_back({.id = id, .name = id, .pointer = ""});
    return number;
}

void GardenBed::add(geometry::Body body, double k_per_m) {
    geometry::Piece piece;
    piece.object = static_cast<std::uint32_t>(garden_.objects.size()) - 1;
    piece.body = std::move(body);
    piece.k_in_leaf_per_m = k_per_m;
    piece.k_bare_per_m = k_per_m;
    geometry::fit_box(piece);
    garden_.pieces.push_back(std::move(piece));
}

void GardenBed::add_prism(const geometry::Outline& outline, double foot_z_m, double top_z_m) {
    add(geometry::solid_of(
        geometry::prism(outline, geometry::level(foot_z_m), geometry::level(top_z_m))));
}

void GardenBed::add_board(Stand stand, const Board& board) {
    add(geometry::solid_of(geometry::prism(
        geometry::rectangle(stand.corner, stand.along, board.length_m, board.depth_m),
        geometry::level(board.foot_z_m), sloping(stand, board.top_z_m, board.top_rise_per_m))));
}

void GardenBed::add_spots(Stand tier, double length_m, double depth_m, double z_m, int count) {
    const int rows = count <= 100 ? 2 : 3;
    const int columns = (count + rows - 1) / rows;
    for (int i = 0; i < count; ++i) {
        const double s = length_m * (i / rows + 0.5) / columns;
        const double depth = depth_m * (i % rows + 0.5) / rows;
        const Vec2 p = at(tier, s, depth);
        spots_.push_back({p.x, p.y, z_m});
    }
}

void GardenBed::add_bench(Stand stand, double length_m, int spots_per_tier) {
    for (const int tier : {0, 1}) {
        const Stand front = moved(stand, 0.0, tier * tier_depth_m);
        const double top_m = tier == 0 ? 0.75 : 1.05;
        add_board(front, {.length_m = length_m,
                          .depth_m = tier_depth_m,
                          .foot_z_m = top_m - board_m,
                          .top_z_m = top_m});
        for (const double share : {0.0, 0.5, 1.0}) {
            const double depth = tier == 0 ? 0.02 : tier_depth_m - leg_m - 0.02;
            add_board(moved(front, share * (length_m - leg_m), depth),
                      {.length_m = leg_m, .depth_m = leg_m, .top_z_m = top_m - board_m});
        }
        add_spots(front, length_m, tier_depth_m, top_m + receiver_height_m, spots_per_tier);
    }
}

void GardenBed::add_net(Stand stand, double length_m, double depth_m, double z_m, double tilt,
                        double transmittance) {
    constexpr double post_m = 0.08;
    std::vector<Vec3> corners;
    for (const auto& [s, depth] : {std::pair{0.0, 0.0}, std::pair{length_m, 0.0},
                                   std::pair{length_m, depth_m}, std::pair{0.0, depth_m}}) {
        const Vec2 p = at(stand, s, depth);
        corners.push_back({p.x, p.y, z_m + tilt * depth});
        add_board({p - Vec2{0.5 * post_m, 0.5 * post_m}, {1.0, 0.0}},
                  {.length_m = post_m, .depth_m = post_m, .top_z_m = corners.back().z});
    }
    geometry::Sheet net;
    net.is_planar = true;
    net.transmittance = transmittance;
    net.facets = {{corners[0], corners[1], corners[2]}, {corners[0], corners[2], corners[3]}};
    add(std::move(net));
}

void GardenBed::add_shed(Stand stand, double length_m, double depth_m, double eaves_m) {
    constexpr double fall = 0.2;
    constexpr double overhang_m = 0.15;
    add_board(
        stand,
        {.length_m = length_m, .depth_m = depth_m, .top_z_m = eaves_m, .top_rise_per_m = fall});
    const Stand roof = moved(stand, -overhang_m, -overhang_m);
    add_board(roof, {.length_m = length_m + 2.0 * overhang_m,
                     .depth_m = depth_m + 2.0 * overhang_m,
                     .foot_z_m = eaves_m - 0.05,
                     .top_z_m = eaves_m + 0.05,
                     .top_rise_per_m = fall});
}

void GardenBed::add_tree(const Tree& tree) {
    constexpr int sides = 6;
    geometry::Outline trunk;
    for (int i = 0; i < sides; ++i) {
        const double turn = 2.0 * std::numbers::pi * i / sides;
        trunk.push_back(tree.middle +
                        (0.5 * tree.trunk_diameter_m) * Vec2{std::cos(turn), std::sin(turn)});
    }
    add_prism(trunk, 0.0, tree.crown_base_m + 0.05);
    geometry::Crown crown;
    crown.form = scene::CrownForm::ellipsoid;
    crown.base_centre = {tree.middle.x, tree.middle.y, tree.crown_base_m};
    crown.height_m = tree.height_m - tree.crown_base_m;
    crown.half_width_m = 0.5 * tree.width_m;
    crown.half_across_m = 0.5 * tree.across_m;
    crown.axis = {tree.axis.x, tree.axis.y, 0.0};
    crown.diameter_m = 0.5 * (tree.width_m + tree.across_m);
    add(crown, -std::log(tree.transmission) / crown.diameter_m);
}

void GardenBed::add_laths(Stand stand, const Panel& panel) {
    const Vec2 left = geometry::left_of(stand.along);
    geometry::LathBody laths;
    laths.corner = {stand.corner.x, stand.corner.y, panel.z_m};
    laths.along = {stand.along.x, stand.along.y, 0.0};
    laths.across = {left.x, left.y, 0.0};
    laths.up = {0.0, 0.0, 1.0};
    laths.length_m = panel.length_m;
    laths.count = panel.laths;
    laths.pitch_m = panel.slat_m + panel.gap_m;
    laths.slat_width_m = panel.slat_m;
    laths.thickness_m = panel.thickness_m;
    laths.slat_tilt = Angle::degrees(panel.slat_tilt_deg);
    add(laths);
}

}  // namespace sunfleck::bench
