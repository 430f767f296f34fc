#include "geometry/builders.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::geometry {
namespace {

constexpr double least_thickness_m = 1e-3;

/// The line without points that repeat or that lie on the straight way between two others.
std::vector<Vec2> essential_points(const std::vector<Vec2>& line) {
    std::vector<Vec2> kept;
    for (const Vec2 p : line) {
        if (!kept.empty() && length(p - kept.back()) < 1e-6) continue;
        while (kept.size() >= 2) {
            const Vec2 before = kept.back() - kept[kept.size() - 2];
            const Vec2 after = p - kept.back();
            const double bend = cross(before, after) / (length(before) * length(after));
            if (std::abs(bend) > 1e-9 || dot(before, after) < 0.0) break;
            kept.pop_back();
        }
        kept.push_back(p);
    }
    return kept;
}

/// Where a stretch ends on its two sides, as distances beyond its last point along it, and what
/// must be filled in beside a joint that is not mitred.
struct Joint {
    double left_m = 0.0;
    double right_m = 0.0;
    bool is_mitred = true;
};

/// The joint of two stretches, seen from the one before; the one after has it mirrored.
Joint joint_between(Vec2 before, Vec2 after, double thickness_m) {
    const Vec2 in = (1.0 / length(before)) * before;
    const Vec2 out = (1.0 / length(after)) * after;
    const double with = 1.0 + dot(in, out);
    if (with < 0.5) return {0.0, 0.0, false};
    // Half the thickness times the tangent of half the turn: outward on the outer side.
    const double reach = 0.5 * thickness_m * cross(in, out) / with;
    if (std::abs(reach) > 0.45 * std::min(length(before), length(after))) return {0.0, 0.0, false};
    return {-reach, reach, true};
}

struct Stretch {
    Vec2 from;
    Vec2 to;
    Joint start;
    Joint end;
};

Outline outline_of(const Stretch& stretch, double thickness_m) {
    const Vec2 run = stretch.to - stretch.from;
    const Vec2 along = (1.0 / length(run)) * run;
    const Vec2 side = 0.5 * thickness_m * left_of(along);
    return {stretch.from - side - stretch.start.right_m * along,
            stretch.to - side + stretch.end.right_m * along,
            stretch.to + side + stretch.end.left_m * along,
            stretch.from + side - stretch.start.left_m * along};
}

/// Closes the wedge on the outer side of a joint that is too sharp for a mitre.
Outline wedge_at(Vec2 joint, Vec2 before, Vec2 after, double thickness_m) {
    const double turn = cross(before, after) >= 0.0 ? -1.0 : 1.0;
    const double half = 0.5 * thickness_m * turn;
    const Vec2 one = joint + (half / length(before)) * left_of(before);
    const Vec2 other = joint + (half / length(after)) * left_of(after);
    return convex_hull({joint, one, other});
}

/// Stretches of the line with their joints; `wedges` takes what closes the sharp ones.
std::vector<Stretch> stretches_of(const std::vector<Vec2>& line, double thickness_m,
                                  std::vector<Outline>& wedges) {
    const bool is_closed = line.size() > 3 && length(line.front() - line.back()) < 1e-6;
    std::vector<Stretch> stretches;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        stretches.push_back({line[i], line[i + 1], {}, {}});
    }
    const std::size_t joints = is_closed ? stretches.size() : stretches.size() - 1;
    for (std::size_t i = 0; i < joints; ++i) {
        Stretch& before = stretches[i];
        Stretch& after = stretches[(i + 1) % stretches.size()];
        const Joint joint =
            joint_between(before.to - before.from, after.to - after.from, thickness_m);
        before.end = joint;
        after.start = joint;
        if (joint.is_mitred) continue;
        Outline wedge =
            wedge_at(before.to, before.to - before.from, after.to - after.from, thickness_m);
        if (!wedge.empty()) wedges.push_back(std::move(wedge));
    }
    return stretches;
}

}  // namespace

std::vector<Piece> pieces_of(const scene::Wall& wall, const Terrain& terrain) {
    const std::vector<Vec2> line = essential_points(terrain.world(wall.line));
    const double thickness = std::max(wall.thickness_m, least_thickness_m);
    const HeightPlane foot = terrain.foot(wall.base_z_m);
    std::vector<Piece> pieces;
    if (line.size() < 2) return pieces;
    std::vector<Outline> wedges;
    for (const Stretch& stretch : stretches_of(line, thickness, wedges)) {
        const Outline outline = outline_of(stretch, thickness);
        add_solid(pieces, prism(outline, foot, foot.raised(wall.height_m)), wall.porosity);
    }
    for (const Outline& wedge : wedges) {
        add_solid(pieces, prism(wedge, foot, foot.raised(wall.height_m)), wall.porosity);
    }
    return pieces;
}

}  // namespace sunfleck::geometry
