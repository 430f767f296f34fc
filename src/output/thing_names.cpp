#include "output/thing_names.h"

#include "output/garden_things.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/scene/plan_frame.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::output {

namespace {

constexpr double name_size = 13.0;
constexpr double most_width = 260.0;

std::vector<SheetPoint> held_in(std::vector<SheetPoint> points, const SheetBox& box) {
    for (SheetPoint& point : points) {
        point = {std::clamp(point.x, box.low.x, box.high.x),
                 std::clamp(point.y, box.low.y, box.high.y)};
    }
    return points;
}

/// Places along a line, beside it on both sides, turned with it where it is steep.
std::vector<LabelPlacer::Place> places_along(SheetPoint from, SheetPoint to, double off) {
    std::vector<LabelPlacer::Place> places;
    const SheetPoint way = to - from;
    const bool is_steep = std::abs(way.y) > std::abs(way.x);
    const SheetPoint aside = is_steep ? SheetPoint{off, 0.0} : SheetPoint{0.0, off};
    for (const double share : {0.5, 0.3, 0.7, 0.15, 0.85}) {
        const SheetPoint foot = from + share * way;
        places.push_back({foot - aside, is_steep ? 1 : 0});
        places.push_back({foot + aside, is_steep ? 1 : 0});
    }
    return places;
}

/// The later end of the longest stretch of a line of points.
std::size_t longest_stretch(std::span<const SheetPoint> points) {
    std::size_t longest = 1;
    for (std::size_t i = 2; i < points.size(); ++i) {
        const bool is_longer = distance(points[i - 1], points[i]) >
                               distance(points[longest - 1], points[longest]) + 1.0;
        if (is_longer) longest = i;
    }
    return longest;
}

}  // namespace

ThingNames::ThingNames(Canvas& canvas, LabelPlacer& labels, const PlanView& view,
                       const scene::Scene& scene, Date date, const Palette& palette)
    : canvas_(canvas),
      labels_(labels),
      view_(view),
      scene_(scene),
      date_(date),
      palette_(palette),
      inside_(view.panel().grown(-2.0)) {}

void ThingNames::write(std::span<const SheetBox> holder_boxes,
                       std::span<const std::string> holder_notes) const {
    name_benches(holder_boxes, holder_notes);
    for (const auto& building : scene_.buildings) name_building(building);
    for (const auto& tree : scene_.trees) name_tree(tree);
    for (const auto& mesh : scene_.meshes) name_mesh(mesh);
    for (const auto& cloth : scene_.cloths) name_cloth(cloth);
    for (const auto& panel : scene_.lath_panels) name_laths(panel);
    for (const auto& wall : scene_.walls) name_wall(wall);
}

void ThingNames::write_around(const SheetBox& box, std::string_view name, double gap,
                              bool is_bold) const {
    if (shared_area(box.grown(1.0), inside_) <= 0.0) return;  // out of the picture
    TextStyle style{.size = name_size, .is_bold = is_bold, .colour = palette_.ink};
    style.halo = palette_.page.at_opacity(0.8);
    const double width = std::min(canvas_.text_width(name, name_size, is_bold), most_width);
    labels_.write(name, places_around(box, width, 1.25 * name_size, gap), style, most_width);
}

void ThingNames::name_benches(std::span<const SheetBox> holder_boxes,
                              std::span<const std::string> holder_notes) const {
    std::size_t holder = 0;
    const auto name = [&](const std::string& own) {
        const std::string& note = holder_notes[holder];
        write_around(holder_boxes[holder], note.empty() ? own : own + ": " + note, 3.0, true);
        ++holder;
    };
    for (const auto& bench : scene_.benches) name(bench.label.name);
    for (const auto& stand : scene_.post_stands) name(stand.label.name);
}

void ThingNames::name_building(const scene::Building& building) const {
    const SheetBox box = box_around(held_in(view_.at(building.outline), inside_));
    if (box.width() < 4.0 || box.height() < 4.0) return;
    TextStyle style{.size = name_size, .colour = palette_.ink};
    style.halo = palette_.page.at_opacity(0.8);
    const double width = canvas_.text_width(building.label.name, name_size, false);
    const int turns = box.width() < width + 8.0 && box.height() > box.width() ? 1 : 0;
    const SheetPoint c = box.centre();
    const SheetPoint aside{0.25 * box.width(), 0.0};
    const SheetPoint down{0.0, 0.25 * box.height()};
    labels_.write(
        building.label.name,
        {{c, turns}, {c + down, turns}, {c - down, turns}, {c - aside, turns}, {c + aside, turns}},
        style, most_width);
}

void ThingNames::name_tree(const scene::Tree& tree) const {
    const SheetPoint trunk = view_.at(tree.position);
    const SheetBox foot = SheetBox{trunk, trunk}.grown(6.0);
    const double crown = view_.pixels(tree.crown_width_m);
    const double width = canvas_.text_width(tree.label.name, name_size, false);
    if (crown < 1.25 * width || width > most_width || shared_area(foot, inside_) <= 0.0) {
        write_around(foot, tree.label.name, 2.0, false);
        return;
    }
    // Within the crown, so that it stands clear of what stands beside the tree.
    TextStyle style{.size = name_size, .colour = palette_.ink};
    style.halo = palette_.page.at_opacity(0.8);
    const double near = 6.0 + 2.0 + 0.5 * 1.25 * name_size;
    const double far = std::max(near, 0.25 * crown);
    labels_.write(tree.label.name,
                  {{trunk + SheetPoint{0.0, near}},
                   {trunk - SheetPoint{0.0, near}},
                   {trunk + SheetPoint{0.0, far}},
                   {trunk - SheetPoint{0.0, far}}},
                  style, most_width);
}

void ThingNames::name_mesh(const scene::Mesh& mesh) const {
    const SheetPoint foot = view_.at(mesh.position);
    write_around(SheetBox{foot, foot}.grown(4.0), mesh.label.name, 2.0, false);
}

void ThingNames::name_cloth(const scene::Cloth& cloth) const {
    std::vector<SheetPoint> corners;
    for (const auto& corner : cloth.corners) corners.push_back(view_.at(corner.position));
    const std::string words = cloth.label.name + ", " + percent_words(cloth.shade_factor) +
                              (is_up(cloth.up, date_) ? "" : ", down");
    write_around(box_around(corners), words, 7.0, false);
}

void ThingNames::name_laths(const scene::LathPanel& panel) const {
    const Vec2 along = scene::PlanFrame(scene_).plan_direction(panel.bearing);
    const std::string words = panel.label.name + (is_up(panel.up, date_) ? "" : ", down");
    write_around(box_around(view_.at(panel_outline(panel, along))), words, 6.0, false);
}

void ThingNames::name_wall(const scene::Wall& wall) const {
    const std::vector<SheetPoint> whole = view_.at(wall.line);
    if (shared_area(box_around(whole).grown(1.0), inside_) <= 0.0) return;
    constexpr double least_length = 30.0;
    const std::vector<SheetPoint> points = held_in(whole, inside_);
    const std::size_t end = longest_stretch(points);
    if (distance(points[end - 1], points[end]) < least_length) return;
    TextStyle style{.size = name_size, .colour = palette_.ink};
    style.halo = palette_.page.at_opacity(0.8);
    const double off = 12.0 + 0.5 * view_.pixels(wall.thickness_m);
    labels_.write(wall.label.name, places_along(points[end - 1], points[end], off), style,
                  most_width);
}

}  // namespace sunfleck::output
