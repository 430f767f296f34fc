#include "output/garden_things.h"

#include "output/hatch.h"
#include "sunfleck/scene/plan_frame.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunfleck::output {

namespace {

/// Distances of the points along a direction.
struct Reach {
    double low = 0.0;
    double high = 0.0;
};

Reach reach_along(std::span<const Vec2> points, Vec2 direction) {
    Reach reach{dot(points.front(), direction), dot(points.front(), direction)};
    for (const Vec2& point : points) {
        reach.low = std::min(reach.low, dot(point, direction));
        reach.high = std::max(reach.high, dot(point, direction));
    }
    return reach;
}

SheetPoint unit(SheetPoint from, SheetPoint to) {
    const double size = distance(from, to);
    return size > 0.0 ? (1.0 / size) * (to - from) : SheetPoint{1.0, 0.0};
}

/// What a straight piece of wall or hedge covers.
Path stretch_outline(SheetPoint from, SheetPoint to, double width) {
    const SheetPoint along = unit(from, to);
    const SheetPoint half = 0.5 * width * SheetPoint{-along.y, along.x};
    return polygon(std::vector<SheetPoint>{from + half, to + half, to - half, from - half});
}

}  // namespace

GardenArtist::GardenArtist(Canvas& canvas, const PlanView& view, const scene::Scene& scene,
                           Date date, const Palette& palette)
    : canvas_(canvas), view_(view), scene_(scene), date_(date), palette_(palette) {}

void GardenArtist::draw_ridge(const scene::Building& building, const Path& outline) const {
    // The ridge stands over the middle line of the outline.
    const Vec2 along = scene::PlanFrame(scene_).plan_direction(building.ridge_bearing);
    const Vec2 across = left_of(along);
    const Reach length = reach_along(building.outline, along);
    const Reach width = reach_along(building.outline, across);
    const Vec2 middle = 0.5 * (width.low + width.high) * across;
    const ClipScope clip(canvas_, outline);
    canvas_.stroke(
        line(view_.at(middle + length.low * along), view_.at(middle + length.high * along)),
        {.colour = palette_.wall_line, .width = 1.0});
}

void GardenArtist::draw_building(const scene::Building& building) const {
    const Path outline = polygon(view_.at(building.outline));
    const bool is_glass = is_overhead(building);
    canvas_.fill(outline,
                 is_glass ? palette_.wall.at_opacity(palette_.crown_opacity) : palette_.wall);
    if (building.roof == scene::RoofForm::gable) draw_ridge(building, outline);
    canvas_.stroke(outline,
                   {.colour = palette_.wall_line,
                    .width = 1.4,
                    .dashes = is_glass ? std::vector<double>{8.0, 4.0} : std::vector<double>{}});
}

void GardenArtist::draw_wall_stretch(SheetPoint from, SheetPoint to, double width) const {
    const Path outline = stretch_outline(from, to, width);
    canvas_.fill(outline, palette_.wall);
    canvas_.stroke(outline, {.colour = palette_.wall_line, .width = 1.0});
}

void GardenArtist::draw_hedge_stretch(SheetPoint from, SheetPoint to, double width) const {
    const Path outline = stretch_outline(from, to, width);
    canvas_.fill(outline, palette_.leaf);
    canvas_.stroke(outline, {.colour = palette_.leaf_line, .width = 1.2});
}

void GardenArtist::draw_fence_stretch(SheetPoint from, SheetPoint to) const {
    constexpr double tick_pitch = 12.0;
    constexpr double tick_reach = 3.5;
    canvas_.stroke(line(from, to), {.colour = palette_.wood_line, .width = 2.0});
    const SheetPoint along = unit(from, to);
    const SheetPoint across = tick_reach * SheetPoint{-along.y, along.x};
    const double size = distance(from, to);
    const auto count = std::max(1L, std::lround(size / tick_pitch));
    Path ticks;
    for (long i = 0; i <= count; ++i) {
        const SheetPoint foot =
            from + size * static_cast<double>(i) / static_cast<double>(count) * along;
        ticks.add(line(foot - across, foot + across));
    }
    canvas_.stroke(ticks, {.colour = palette_.wood_line, .width = 1.6});
}

void GardenArtist::draw_wall(const scene::Wall& wall) const {
    const std::vector<SheetPoint> points = view_.at(wall.line);
    const double width = std::max(view_.pixels(wall.thickness_m), 3.0);
    for (std::size_t i = 1; i < points.size(); ++i) {
        if (is_hedge(wall)) {
            draw_hedge_stretch(points[i - 1], points[i], width);
        } else if (is_fence(wall)) {
            draw_fence_stretch(points[i - 1], points[i]);
        } else {
            draw_wall_stretch(points[i - 1], points[i], width);
        }
    }
}

void GardenArtist::draw_boards(const scene::Bench& bench, const scene::Tier& tier) const {
    constexpr double usual_board_m = 0.12;  // a closed top is drawn of boards, too
    constexpr double least_pitch = 3.0;
    const double board_m =
        bench.board_width_m > 0.0 ? bench.board_width_m + bench.board_gap_m : usual_board_m;
    const scene::BenchFrame frame(scene::PlanFrame(scene_), bench);
    const std::vector<Vec2> outline = tier_outline(frame, bench, tier);
    const Vec2 along = frame.along();
    const Vec2 across = frame.across();
    const Reach length = reach_along(outline, along);
    const Reach depth = reach_along(outline, across);
    const double depth_m = depth.high - depth.low;
    const double most = std::max(1.0, std::floor(view_.pixels(depth_m) / least_pitch));
    const double count = std::min(std::max(1.0, std::round(depth_m / board_m)), most);
    Path gaps;
    for (double i = 1.0; i < count; i += 1.0) {
        const Vec2 start = (depth.low + depth_m * i / count) * across;
        gaps.add(line(view_.at(start + length.low * along), view_.at(start + length.high * along)));
    }
    const Path area = polygon(view_.at(outline));
    canvas_.fill(area, palette_.wood);
    {
        const ClipScope clip(canvas_, area);
        canvas_.stroke(gaps, {.colour = palette_.wood_line.at_opacity(0.7), .width = 0.6});
    }
    canvas_.stroke(area, {.colour = palette_.wood_line, .width = 1.4});
}

void GardenArtist::draw_bench(const scene::Bench& bench) const {
    // From the lowest tier up, as they lie over one another.
    for (const scene::Tier& tier : bench.tiers) draw_boards(bench, tier);
}

void GardenArtist::draw_stand(const scene::PostStand& stand) const {
    const Vec2 along = scene::PlanFrame(scene_).plan_direction(stand.bearing);
    const Path top = polygon(view_.at(stand_outline(stand, along)));
    canvas_.fill(top, palette_.wood);
    canvas_.stroke(top, {.colour = palette_.wood_line, .width = 1.4});
}

void GardenArtist::draw_laths(const scene::LathPanel& panel) const {
    constexpr double least_pitch = 4.0;
    const Vec2 along = scene::PlanFrame(scene_).plan_direction(panel.bearing);
    const std::vector<Vec2> outline = panel_outline(panel, along);
    const Vec2 across = outline[3] - outline[0];
    const double pitch_m = panel.slat_width_m + panel.gap_m;
    const double width = view_.pixels(length(across));
    const double most = std::max(1.0, std::floor(width / least_pitch));
    const double count = std::min(std::max(1.0, std::round(panel.width_m / pitch_m)), most);
    const double slat_share = pitch_m > 0.0 ? panel.slat_width_m / pitch_m : 0.5;
    const double opacity = is_up(panel.up, date_) ? 0.55 : 0.2;
    Path slats;
    for (double i = 0.0; i < count; i += 1.0) {
        const Vec2 start = outline[0] + (i / count) * across;
        const std::vector<Vec2> slat{
            start, start + (outline[1] - outline[0]),
            start + (outline[1] - outline[0]) + (slat_share / count) * across,
            start + (slat_share / count) * across};
        slats.add(polygon(view_.at(slat)));
    }
    canvas_.fill(slats, palette_.wood_line.at_opacity(opacity));
    canvas_.stroke(polygon(view_.at(outline)), {.colour = palette_.wood_line, .width = 1.2});
}

void GardenArtist::draw_cloth(const scene::Cloth& cloth) const {
    std::vector<SheetPoint> corners;
    for (const auto& corner : cloth.corners) corners.push_back(view_.at(corner.position));
    const Path outline = polygon(corners);
    const bool hangs = is_up(cloth.up, date_);
    if (hangs) {
        hatch(canvas_, outline, box_around(corners),
              {.pitch = 7.0,
               .line_width = 0.9,
               .colour = palette_.soft_ink.at_opacity(0.35),
               .falls = true});
    }
    canvas_.stroke(
        outline, {.colour = palette_.soft_ink,
                  .width = hangs ? 1.6 : 1.0,
                  .dashes = hangs ? std::vector<double>{6.0, 4.0} : std::vector<double>{1.5, 4.0}});
    for (const SheetPoint& corner : corners) {
        const Path peg = rectangle(SheetBox{corner, corner}.grown(3.0));
        canvas_.fill(peg, palette_.page);
        canvas_.stroke(peg, {.colour = palette_.ink, .width = 1.2});
    }
}

void GardenArtist::draw_tree(const scene::Tree& tree) const {
    const SheetPoint centre = view_.at(tree.position);
    const Vec2 along = scene::PlanFrame(scene_).plan_direction(tree.crown_bearing);
    const Path crown = scalloped_crown(centre, view_.pixels(0.5 * tree.crown_width_m),
                                       view_.pixels(0.5 * tree.crown_width_across_m),
                                       Angle::radians(-std::atan2(along.y, along.x)));
    canvas_.fill(crown, palette_.leaf.at_opacity(palette_.crown_opacity));
    canvas_.stroke(crown, {.colour = palette_.leaf_line, .width = 1.4});
    const double trunk = std::max(view_.pixels(0.5 * tree.trunk_diameter_m), 3.0);
    canvas_.fill(circle(centre, trunk), palette_.leaf_line);
}

void GardenArtist::draw_meshes(const geometry::Garden& garden) const {
    const scene::PlanFrame frame(scene_);
    const auto at = [&](Vec3 corner) { return view_.at(frame.to_plan({corner.x, corner.y})); };
    for (const geometry::Piece& piece : garden.pieces) {
        const auto* mesh = std::get_if<geometry::MeshBody>(&piece.body);
        if (mesh == nullptr) continue;
        Path facets;
        for (const geometry::Triangle& facet : mesh->facets) {
            const std::vector<SheetPoint> corners{at(facet.a), at(facet.b), at(facet.c)};
            facets.add(polygon(corners));
        }
        // What of the edges' lines is left outside the facets is the outline.
        canvas_.stroke(facets, {.colour = palette_.wall_line, .width = 2.4});
        canvas_.stroke(facets, {.colour = palette_.wall, .width = 0.6});
        for (const geometry::Triangle& facet : mesh->facets) {
            const std::vector<SheetPoint> corners{at(facet.a), at(facet.b), at(facet.c)};
            canvas_.fill(polygon(corners), palette_.wall);
        }
    }
}

void GardenArtist::draw_standing_things() const {
    for (const auto& building : scene_.buildings) {
        if (!is_overhead(building)) draw_building(building);
    }
    for (const auto& wall : scene_.walls) draw_wall(wall);
    for (const auto& bench : scene_.benches) draw_bench(bench);
    for (const auto& stand : scene_.post_stands) draw_stand(stand);
}

void GardenArtist::draw_hanging_things() const {
    for (const auto& building : scene_.buildings) {
        if (is_overhead(building)) draw_building(building);
    }
    for (const auto& panel : scene_.lath_panels) draw_laths(panel);
    for (const auto& cloth : scene_.cloths) draw_cloth(cloth);
    for (const auto& tree : scene_.trees) draw_tree(tree);
}

bool is_fence(const scene::Wall& wall) {
    return wall.label.pointer.starts_with("/fences/");
}

bool is_hedge(const scene::Wall& wall) {
    constexpr double thinnest_m = 0.25;
    return is_fence(wall) && wall.thickness_m >= thinnest_m;
}

bool is_overhead(const scene::Building& building) {
    constexpr double over_benches_m = 1.5;
    return building.base_z_m.value_or(0.0) > over_benches_m;
}

bool is_up(const std::vector<scene::YearSpan>& up, Date date) {
    return up.empty() || std::any_of(up.begin(), up.end(), [date](const scene::YearSpan& span) {
               return span.contains(date);
           });
}

Path scalloped_crown(SheetPoint centre, double half_width, double half_across, Angle turn) {
    // Bulges of about 20 px, each a cubic that leans outwards between two points of the ellipse.
    constexpr double scallop = 20.0;
    constexpr double bulge = 0.55;  // of a bulge's width
    const double round = std::numbers::pi * (half_width + half_across);
    const auto count = std::max(8L, std::lround(round / scallop));
    // Half of each bulge lies beyond the true crown, half of it within.
    const double middle = 0.375 * bulge * round / static_cast<double>(count);
    half_width = std::max(half_width - middle, 0.5 * half_width);
    half_across = std::max(half_across - middle, 0.5 * half_across);
    const auto on_ellipse = [&](double share) {
        const double t = 2.0 * std::numbers::pi * share;
        const double x = half_width * std::cos(t);
        const double y = half_across * std::sin(t);
        return centre + SheetPoint{x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn)};
    };
    Path path;
    path.move_to(on_ellipse(0.0));
    for (long i = 0; i < count; ++i) {
        const SheetPoint a = on_ellipse(static_cast<double>(i) / static_cast<double>(count));
        const SheetPoint b = on_ellipse(static_cast<double>(i + 1) / static_cast<double>(count));
        const SheetPoint chord = b - a;
        const SheetPoint outwards = bulge * SheetPoint{chord.y, -chord.x};
        path.curve_to(a + outwards, b + outwards, b);
    }
    return path.close();
}

}  // namespace sunfleck::output
