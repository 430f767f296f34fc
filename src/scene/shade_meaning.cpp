#include "scene/findings.h"
#include "scene/plan_outline.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/scene/seasons.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::scene {
namespace {

/// Days from the first to the last of a stretch of the year, both counted.
int days_of(const YearSpan& span) {
    const int year = 2026;
    const Date from = in_year(span.from, year);
    Date to = in_year(span.to, year);
    if (to < from) to = in_year(span.to, year + 1);
    return days_between(from, to) + 1;
}

/// A net that hangs through the winter and not in midsummer was probably dated the wrong way
/// round; a frost net hangs for less than this (common practice, no source).
constexpr int longest_frost_days = 200;

void check_stretches(const Scene& scene, const std::vector<YearSpan>& up, const Label& label,
                     Findings& findings) {
    const Date midsummer =
        in_year(scene.site.place.latitude.is_south() ? std::chrono::December / std::chrono::day(21)
                                                     : std::chrono::June / std::chrono::day(21),
                year_for(scene, std::nullopt));
    for (std::size_t i = 0; i < up.size(); ++i) {
        const std::string pointer = label.pointer + "/up/" + std::to_string(i);
        if (days_of(up[i]) > longest_frost_days && !up[i].contains(midsummer)) {
            findings.warning(
                {.code = "dates_swapped",
                 .pointer = pointer,
                 .message = called(label) + " is up from " + iso_month_day(up[i].from) + " to " +
                            iso_month_day(up[i].to) + ": all winter, and not in midsummer.",
                 .mend = "Did you mean from " + iso_month_day(up[i].to) + " to " +
                         iso_month_day(up[i].from) + "?"});
        }
        for (std::size_t j = 0; j < i; ++j) {
            const Date from = in_year(up[i].from, year_for(scene, std::nullopt));
            const Date other = in_year(up[j].from, year_for(scene, std::nullopt));
            if (!up[j].contains(from) && !up[i].contains(other)) continue;
            findings.warning(
                {.code = "stretches_overlap",
                 .pointer = pointer,
                 .message = "Two of the stretches in which " + called(label) + " is up overlap.",
                 .mend = "Make them one."});
        }
    }
}

double corner_z(const PlanFrame& frame, const ClothCorner& corner) {
    return frame.z_of(corner.height, corner.position);
}

void check_corners(const Cloth& cloth, const PlanFrame& frame, Findings& findings) {
    for (std::size_t i = 0; i < cloth.corners.size(); ++i) {
        const ClothCorner& corner = cloth.corners[i];
        const double over_m = corner_z(frame, corner) - frame.ground_z(corner.position);
        if (over_m >= 0.0) continue;
        findings.error({.code = "corner_below_ground",
                        .pointer = cloth.label.pointer + "/corners_m/" + std::to_string(i),
                        .message = "Corner " + std::to_string(i + 1) + " of " +
                                   called(cloth.label) + " is " + length_words(-over_m) +
                                   " under the ground.",
                        .mend = corner.height.is_absolute
                                    ? "Absolute heights start from the plan's origin; here the "
                                      "ground is at " +
                                          fixed_words(frame.ground_z(corner.position), 2) + " m."
                                    : "Give its height above the ground."});
    }
}

/// How far the line through a, b stays from the line through c, d, and whether they cross: in
/// space, for the two pairs of opposite edges of a cloth.
bool do_edges_cross(const std::vector<Vec3>& corners, std::size_t first) {
    const Vec3 a = corners[first];
    const Vec3 b = corners[(first + 1) % 4];
    const Vec3 c = corners[(first + 2) % 4];
    const Vec3 d = corners[(first + 3) % 4];
    const Vec3 normal = cross(b - a, d - c);
    // The two edges pass each other when each one's ends lie on both sides of the other's plane
    // spanned with the common normal.
    if (!(length(normal) > 1e-9)) return false;
    const Vec3 across_ab = cross(normal, b - a);
    const Vec3 across_cd = cross(normal, d - c);
    return dot(across_ab, c - a) * dot(across_ab, d - a) < 0.0 &&
           dot(across_cd, a - c) * dot(across_cd, b - c) < 0.0;
}

void check_form(const Cloth& cloth, const PlanFrame& frame, Findings& findings) {
    std::vector<Vec3> corners;
    for (const ClothCorner& corner : cloth.corners) {
        corners.push_back(frame.world_point(corner.position, corner_z(frame, corner)));
    }
    if (corners.size() < 3) return;
    double area_m2 = 0.0;
    for (std::size_t i = 1; i + 1 < corners.size(); ++i) {
        area_m2 += 0.5 * length(cross(corners[i] - corners[0], corners[i + 1] - corners[0]));
    }
    if (area_m2 < 1e-4) {
        findings.error({.code = "cloth_without_area",
                        .pointer = cloth.label.pointer + "/corners_m",
                        .message = "The corners of " + called(cloth.label) + " lie in one line.",
                        .mend = "Check them."});
    } else if (corners.size() == 4 && (do_edges_cross(corners, 0) || do_edges_cross(corners, 1))) {
        findings.error({.code = "cloth_twisted",
                        .pointer = cloth.label.pointer + "/corners_m",
                        .message = called(cloth.label) + " is twisted: two of its edges cross.",
                        .mend = "List the corners in turn, as one walks round."});
    }
}

void check_flaps(const Cloth& cloth, const PlanFrame& frame, Findings& findings) {
    for (std::size_t i = 0; i < cloth.flaps.size(); ++i) {
        const Flap& flap = cloth.flaps[i];
        const auto edge = static_cast<std::size_t>(flap.edge);
        if (flap.edge < 0 || edge >= cloth.corners.size()) continue;
        const std::string pointer = cloth.label.pointer + "/flaps/" + std::to_string(i);
        for (std::size_t j = 0; j < i; ++j) {
            if (cloth.flaps[j].edge != flap.edge) continue;
            findings.error(
                {.code = "two_flaps_on_edge",
                 .pointer = pointer + "/edge",
                 .message = "Two flaps of " + called(cloth.label) + " hang from the same edge.",
                 .mend = "Make them one."});
        }
        const ClothCorner& a = cloth.corners[edge];
        const ClothCorner& b = cloth.corners[(edge + 1) % cloth.corners.size()];
        const double room_m = std::min(corner_z(frame, a) - frame.ground_z(a.position),
                                       corner_z(frame, b) - frame.ground_z(b.position));
        if (room_m < 0.0 || flap.drop_m <= room_m + 0.01) continue;
        findings.warning({.code = "flap_on_ground",
                          .pointer = pointer + "/drop_m",
                          .message = "A flap of " + called(cloth.label) + " hangs " +
                                     length_words(flap.drop_m) + " down, but the ground is " +
                                     length_words(room_m) + " below.",
                          .mend = "Did you mean " + length_words(flap.drop_m / 10.0) + "?"});
    }
}

void check_panel(const LathPanel& panel, const PlanFrame& frame, Findings& findings) {
    const Vec2 along = frame.plan_direction(panel.bearing);
    const Vec2 left{-along.y, along.x};
    const double start_z = frame.z_of(panel.height, panel.corner);
    for (const double along_m : {0.0, panel.length_m}) {
        for (const double across_m : {0.0, panel.width_m}) {
            const Vec2 corner =
                panel.corner + along_m * along + (across_m * cos(panel.tilt)) * left;
            const double over_m = start_z + across_m * sin(panel.tilt) - frame.ground_z(corner);
            if (over_m >= -0.001) continue;
            findings.error({.code = "laths_below_ground",
                            .pointer = panel.label.pointer,
                            .message = "A corner of " + called(panel.label) + " is " +
                                       length_words(-over_m) + " under the ground.",
                            .mend = "Raise it, or check the sign of tilt_deg: positive raises "
                                    "the far side."});
            return;
        }
    }
}

void check_wall(const Wall& wall, Findings& findings) {
    // Higher free-standing walls exist, but 18 is more often 1.8 with a point forgotten.
    constexpr double tall_wall_m = 12.0;
    if (wall.height_m > tall_wall_m) {
        findings.warning(
            {.code = "tall_wall",
             .pointer = wall.label.pointer + "/height_m",
             .message = called(wall.label) + " is " + length_words(wall.height_m) + " high.",
             .mend = "Did you mean " + length_words(wall.height_m / 10.0) + "?"});
    }
    for (std::size_t i = 0; i + 1 < wall.line.size(); ++i) {
        if (length(wall.line[i + 1] - wall.line[i]) > 1e-6) continue;
        findings.error({.code = "point_twice",
                        .pointer = wall.label.pointer + "/line_m/" + std::to_string(i + 1),
                        .message = "A point of " + called(wall.label) + " is listed twice.",
                        .mend = "Take one out."});
    }
    if (wall.thickness_m > 1.5 && wall.thickness_m > wall.height_m) {
        findings.warning({.code = "thick_wall",
                          .pointer = wall.label.pointer + "/thickness_cm",
                          .message = called(wall.label) + " is " + length_words(wall.thickness_m) +
                                     " thick and " + length_words(wall.height_m) + " high.",
                          .mend = "Is the thickness in centimetres?"});
    }
}

}  // namespace

void check_shade(const Scene& scene, Findings& findings) {
    const PlanFrame frame(scene);
    for (const Cloth& cloth : scene.cloths) {
        check_corners(cloth, frame, findings);
        check_form(cloth, frame, findings);
        check_flaps(cloth, frame, findings);
        check_stretches(scene, cloth.up, cloth.label, findings);
    }
    for (const LathPanel& panel : scene.lath_panels) {
        check_panel(panel, frame, findings);
        check_stretches(scene, panel.up, panel.label, findings);
    }
    for (const Wall& wall : scene.walls) check_wall(wall, findings);
}

}  // namespace sunfleck::scene
