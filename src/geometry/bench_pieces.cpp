#include "geometry/builders.h"
#include "sunfleck/scene/bench_frame.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::geometry {
namespace {

constexpr double leg_width_m = 0.07;
constexpr double most_between_legs_m = 2.5;
constexpr double same_leg_m = 0.20;
constexpr double riser_thickness_m = 0.02;
constexpr double least_board_m = 1e-3;

/// A bench in the world: its directions along the front edge and to the back, and its tiers.
struct BenchShape {
    Vec2 corner;
    Vec2 along;
    Vec2 back;
    std::vector<Outline> parts;        ///< the whole outline in convex parts
    std::vector<scene::Strip> strips;  ///< of the tiers, from the front edge
    double base_z_m = 0.0;
    HeightPlane foot;
};

/// The bench's convex parts between two distances from the front edge's line.
std::vector<Outline> strip(const BenchShape& shape, double from_m, double to_m) {
    const double front = dot(shape.back, shape.corner);
    std::vector<Outline> result;
    for (const Outline& part : shape.parts) {
        const Outline behind = clipped(part, -1.0 * shape.back, -(front + from_m));
        Outline kept = clipped(behind, shape.back, front + to_m);
        if (!kept.empty()) result.push_back(std::move(kept));
    }
    return result;
}

void add_top(std::vector<Piece>& pieces, const scene::Bench& bench, std::size_t tier,
             const BenchShape& shape) {
    const auto [front, back] = shape.strips[tier];
    const HeightPlane top = level(shape.base_z_m + bench.tiers[tier].height_m);
    const HeightPlane underside = top.raised(-std::max(bench.thickness_m, least_board_m));
    const bool is_slatted = bench.board_width_m > 0.0 && bench.board_gap_m > 0.0;
    const double pitch = is_slatted ? bench.board_width_m + bench.board_gap_m : back - front;
    const int boards = is_slatted ? static_cast<int>(std::ceil((back - front) / pitch - 1e-9)) : 1;
    for (int i = 0; i < boards; ++i) {
        const double from = front + i * pitch;
        const double to = is_slatted ? std::min(from + bench.board_width_m, back) : back;
        for (const Outline& board : strip(shape, from, to)) {
            add_solid(pieces, prism(board, underside, top));
        }
    }
}

/// The board under a tier's front edge, down to the tier below or to the ground.
void add_riser(std::vector<Piece>& pieces, const scene::Bench& bench, std::size_t tier,
               const BenchShape& shape) {
    const double front = shape.strips[tier].front_m;
    const HeightPlane top = level(shape.base_z_m + bench.tiers[tier].height_m - bench.thickness_m);
    const HeightPlane bottom =
        tier > 0 ? level(shape.base_z_m + bench.tiers[tier - 1].height_m) : shape.foot;
    for (const Outline& board : strip(shape, front, front + riser_thickness_m)) {
        const bool is_above =
            std::any_of(board.begin(), board.end(), [&](Vec2 p) { return top(p) > bottom(p); });
        if (is_above) add_solid(pieces, cut_below(prism(board, bottom, top.raised(10.0)), top));
    }
}

struct Leg {
    Vec2 middle;
    double top_z_m = 0.0;
};

/// A leg stands unless a taller one stands there already.
void add_leg(std::vector<Leg>& legs, Leg leg) {
    const bool is_taken = std::any_of(legs.begin(), legs.end(), [&](const Leg& other) {
        return length(other.middle - leg.middle) < same_leg_m;
    });
    if (!is_taken) legs.push_back(leg);
}

/// Legs in a row from one end to the other of a line, no more than 2.5 m apart.
void add_leg_row(std::vector<Leg>& legs, Vec2 from, Vec2 to, double top_z_m) {
    const Vec2 run = to - from;
    const int bays = std::max(1, static_cast<int>(std::ceil(length(run) / most_between_legs_m)));
    for (int i = 0; i <= bays; ++i) {
        add_leg(legs, {from + (static_cast<double>(i) / bays) * run, top_z_m});
    }
}

std::vector<Leg> rectangle_legs(const scene::Bench& bench, const BenchShape& shape) {
    std::vector<Leg> legs;
    const double inset = 0.5 * leg_width_m;
    for (std::size_t tier = bench.tiers.size(); tier-- > 0;) {
        const auto [front, back] = shape.strips[tier];
        const double top_z = shape.base_z_m + bench.tiers[tier].height_m - bench.thickness_m;
        for (const double depth : {front + inset, back - inset}) {
            const Vec2 start = shape.corner + depth * shape.back;
            add_leg_row(legs, start + inset * shape.along,
                        start + (bench.length_m - inset) * shape.along, top_z);
        }
    }
    return legs;
}

/// A leg inside each outward corner of the outline, under the tier that is there.
std::vector<Leg> polygon_legs(const scene::Bench& bench, const Outline& outline,
                              const BenchShape& shape) {
    std::vector<Leg> legs;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Vec2 in = outline[i] - outline[(i + outline.size() - 1) % outline.size()];
        const Vec2 out = outline[(i + 1) % outline.size()] - outline[i];
        if (!(cross(in, out) > 1e-9)) continue;
        const Vec2 inward = (1.0 / length(out)) * out - (1.0 / length(in)) * in;
        const Vec2 middle = outline[i] + (leg_width_m / length(inward)) * inward;
        const double depth = dot(shape.back, middle - shape.corner);
        for (std::size_t tier = bench.tiers.size(); tier-- > 0;) {
            if (depth < shape.strips[tier].front_m || depth > shape.strips[tier].back_m) continue;
            const double top_z = shape.base_z_m + bench.tiers[tier].height_m - bench.thickness_m;
            add_leg(legs, {middle, top_z});
        }
    }
    return legs;
}

void add_legs(std::vector<Piece>& pieces, const std::vector<Leg>& legs, const BenchShape& shape) {
    for (const Leg& leg : legs) {
        if (leg.top_z_m <= shape.foot(leg.middle)) continue;
        const Vec2 corner = leg.middle - 0.5 * leg_width_m * (shape.along + shape.back);
        const Outline section = rectangle(corner, shape.along, leg_width_m, leg_width_m);
        add_solid(pieces, prism(section, shape.foot, level(leg.top_z_m)));
    }
}

}  // namespace

Result<std::vector<Piece>> pieces_of(const scene::Bench& bench, const Terrain& terrain) {
    const Outline outline = terrain.world(bench.outline);
    auto parts = convex_parts(outline);
    if (!parts) return failure(crossing_outline(bench.label));
    const scene::BenchFrame own(terrain.frame(), bench);
    BenchShape shape;
    shape.corner = outline[0];
    shape.along = terrain.world(own.along());
    shape.back = left_of(shape.along);
    shape.parts = std::move(*parts);
    for (const scene::Tier& tier : bench.tiers) {
        shape.strips.push_back(scene::strip_of(own, bench, tier));
    }
    shape.base_z_m = own.base_z_m();
    shape.foot = terrain.foot(bench.base_z_m);
    std::vector<Piece> pieces;
    for (std::size_t i = 0; i < bench.tiers.size(); ++i) {
        add_top(pieces, bench, i, shape);
        if (bench.tiers[i].closed_riser) add_riser(pieces, bench, i, shape);
    }
    if (bench.has_legs) {
        const auto legs =
            bench.is_rectangle ? rectangle_legs(bench, shape) : polygon_legs(bench, outline, shape);
        add_legs(pieces, legs, shape);
    }
    return pieces;
}

std::vector<Piece> pieces_of(const scene::PostStand& stand, const Terrain& terrain) {
    const Vec2 middle = terrain.world(stand.position);
    const Vec2 along = terrain.towards(stand.bearing);
    const auto square = [&](double side) {
        return rectangle(middle - 0.5 * side * (along + left_of(along)), along, side, side);
    };
    const HeightPlane top = level(terrain.base_z(middle, stand.base_z_m) + stand.height_m);
    const HeightPlane underside = top.raised(-std::max(stand.top_thickness_m, least_board_m));
    std::vector<Piece> pieces;
    add_solid(pieces, prism(square(stand.top_side_m), underside, top));
    const HeightPlane foot = terrain.foot(stand.base_z_m);
    if (underside(middle) > foot(middle)) {
        add_solid(pieces, prism(square(stand.post_width_m), foot, underside));
    }
    return pieces;
}

}  // namespace sunfleck::geometry
