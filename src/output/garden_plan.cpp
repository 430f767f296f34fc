#include "sunfleck/output/garden_plan.h"

#include "output/garden_things.h"
#include "output/thing_names.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/exposure/sun_arc.h"
#include "sunfleck/output/plan_marks.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::output {

namespace {

constexpr double least_ring_spacing = 16.0;
constexpr double largest_ring = 44.0;

/// The largest ring that keeps clear of its neighbours, marks included.
double ring_diameter(double spacing) {
    constexpr double gap = 1.0;
    const double with_marks = spacing - 2.0 * ring_margin(ring_with_marks) - gap;
    if (with_marks >= ring_with_marks) return std::min(with_marks, largest_ring);
    return std::min(spacing - 2.0 * ring_margin(ring_with_figure), ring_with_marks - 1.0);
}

/// Distance from each spot to the nearest other one of its own bench, in pixels.
std::vector<double> spacings(std::span<const scene::Spot> spots, const PlanView& view) {
    std::vector<double> spacing(spots.size(), 1e9);
    for (std::size_t i = 0; i < spots.size(); ++i) {
        for (std::size_t j = i + 1; j < spots.size() && spots[j].holder == spots[i].holder; ++j) {
            const double apart = view.pixels(length(spots[i].position - spots[j].position));
            spacing[i] = std::min(spacing[i], apart);
            spacing[j] = std::min(spacing[j], apart);
        }
    }
    return spacing;
}

/// The same to the nearest other spot of any bench or stand.
std::vector<double> spacings_of_all(std::span<const scene::Spot> spots, const PlanView& view) {
    std::vector<double> spacing(spots.size(), 1e9);
    for (std::size_t i = 0; i < spots.size(); ++i) {
        for (std::size_t j = i + 1; j < spots.size(); ++j) {
            const double apart = view.pixels(length(spots[i].position - spots[j].position));
            spacing[i] = std::min(spacing[i], apart);
            spacing[j] = std::min(spacing[j], apart);
        }
    }
    return spacing;
}

/// "2 h to 5 h 10" of the days' full sun.
std::string full_sun_range(const std::vector<SpotDay>& days) {
    const auto less = [](const SpotDay& a, const SpotDay& b) {
        return a.day->total.full_min < b.day->total.full_min;
    };
    const auto [least, most] = std::minmax_element(days.begin(), days.end(), less);
    const std::string from = duration_words(least->day->total.full_min);
    const std::string to = duration_words(most->day->total.full_min);
    return (from == to ? from : from + " to " + to) + " of full sun";
}

/// From the edge of one box to that of another, with a peg at its foot.
void draw_string(Canvas& canvas, const SheetBox& from, const SheetBox& to, const Palette& palette) {
    const auto nearest = [](const SheetBox& box, SheetPoint to_point) {
        return SheetPoint{std::clamp(to_point.x, box.low.x, box.high.x),
                          std::clamp(to_point.y, box.low.y, box.high.y)};
    };
    const SheetPoint foot = nearest(from, to.centre());
    canvas.stroke(line(foot, nearest(to, foot)), {.colour = palette.ink, .width = 1.0});
    canvas.fill(circle(foot, 2.5), palette.ink);
}

}  // namespace

GardenPlan::GardenPlan(Canvas& canvas, const scene::Scene& scene,
                       std::span<const scene::Spot> spots, Date date, const PlanView& view,
                       const Palette& palette)
    : canvas_(canvas),
      scene_(scene),
      spots_(spots),
      date_(date),
      view_(view),
      palette_(palette),
      labels_(canvas, view.panel()),
      spacing_(spacings(spots, view)) {
    avoid_things();
}

std::vector<SheetPoint> GardenPlan::holder_outline(int holder) const {
    const auto index = static_cast<std::size_t>(holder);
    if (index < scene_.benches.size()) return view_.at(scene_.benches[index].outline);
    const auto& stand = scene_.post_stands[index - scene_.benches.size()];
    return view_.at(stand_outline(stand, scene::PlanFrame(scene_).plan_direction(stand.bearing)));
}

void GardenPlan::avoid_things() {
    const auto holders = static_cast<int>(scene_.benches.size() + scene_.post_stands.size());
    for (int i = 0; i < holders; ++i) {
        holder_boxes_.push_back(box_around(holder_outline(i)));
        labels_.avoid(holder_boxes_.back(), 3.0);
        holder_notes_.emplace_back();
    }
    for (const auto& building : scene_.buildings) {
        if (is_overhead(building)) continue;
        labels_.avoid(box_around(view_.at(building.outline)), 0.02);
    }
    for (const auto& tree : scene_.trees) {
        const SheetPoint centre = view_.at(tree.position);
        labels_.avoid(SheetBox{centre, centre}.grown(8.0), 2.0);
        const double crown = view_.pixels(0.35 * tree.crown_width_m);
        labels_.avoid(SheetBox{centre, centre}.grown(crown), 0.2);
    }
    for (const auto& cloth : scene_.cloths) {
        for (const auto& corner : cloth.corners) {
            const SheetPoint peg = view_.at(corner.position);
            labels_.avoid(SheetBox{peg, peg}.grown(5.0), 1.0);
        }
    }
    for (const auto& wall : scene_.walls) {
        const auto points = view_.at(wall.line);
        for (std::size_t i = 1; i < points.size(); ++i) {
            const std::vector<SheetPoint> ends{points[i - 1], points[i]};
            labels_.avoid(box_around(ends).grown(3.0), 1.0);
        }
    }
}

void GardenPlan::draw_garden(const geometry::Garden& garden, const ShadowCaster* shadows) {
    const SheetBox& panel = view_.panel();
    const GardenArtist artist(canvas_, view_, scene_, date_, palette_);
    canvas_.fill(rectangle(panel), palette_.grass);
    if (shadows != nullptr) {
        shadows->draw(canvas_, view_, ground_plane(garden), rectangle(panel), panel, palette_);
    }
    artist.draw_standing_things();
    artist.draw_meshes(garden);
    if (shadows != nullptr) draw_shadows_on_tops(*shadows);
    artist.draw_hanging_things();
}

void GardenPlan::draw_shadows_on_tops(const ShadowCaster& shadows) const {
    constexpr double over_m = 0.002;  // over the top, so that its own boards throw nothing on it
    const scene::PlanFrame frame(scene_);
    for (const auto& bench : scene_.benches) {
        const scene::BenchFrame bench_frame(frame, bench);
        for (const auto& tier : bench.tiers) {
            const auto outline = view_.at(tier_outline(bench_frame, bench, tier));
            shadows.draw(canvas_, view_,
                         level_plane(bench_frame.base_z_m() + tier.height_m + over_m),
                         polygon(outline), box_around(outline), palette_);
        }
    }
    for (std::size_t i = 0; i < scene_.post_stands.size(); ++i) {
        const auto& stand = scene_.post_stands[i];
        const double foot_z = scene::base_z_of(frame, stand.base_z_m, stand.position);
        const auto outline = holder_outline(static_cast<int>(scene_.benches.size() + i));
        shadows.draw(canvas_, view_, level_plane(foot_z + stand.height_m + over_m),
                     polygon(outline), box_around(outline), palette_);
    }
}

void GardenPlan::draw_free_spots(const std::vector<bool>& is_taken) const {
    for (std::size_t i = 0; i < spots_.size(); ++i) {
        if (is_taken[i]) continue;
        canvas_.fill(circle(view_.at(spots_[i].position), 2.2), palette_.soft_ink.at_opacity(0.6));
    }
}

GardenPlan::Drawn GardenPlan::draw_days(const std::vector<SpotDay>& days,
                                        const sun::SunDay& sun_day,
                                        const std::vector<sun::CivilHour>& hours) {
    std::map<int, std::vector<SpotDay>> by_holder;
    for (const SpotDay& day : days) by_holder[spots_[day.spot].holder].push_back(day);
    const std::vector<double> room = spacings_of_all(spots_, view_);
    const auto spacing_of = [&](const std::vector<SpotDay>& own) {
        double spacing = 1e9;
        for (const SpotDay& day : own) spacing = std::min(spacing, room[day.spot]);
        return spacing;
    };
    Drawn drawn;
    for (const auto& [holder, own] : by_holder) {
        const double spacing = spacing_of(own);
        if (spacing < least_ring_spacing) continue;
        const double diameter = ring_diameter(spacing);
        drawn.has_rings = true;
        drawn.has_marks = drawn.has_marks || diameter >= ring_with_marks;
        for (const SpotDay& day : own) {
            const SheetPoint centre = view_.at(spots_[day.spot].position);
            const double reach = 0.5 * diameter + ring_margin(diameter);
            add_to_holder(holder, SheetBox{centre, centre}.grown(reach));
            draw_day_ring(canvas_, centre, diameter,
                          day_ring(*day.day, sun_day, scene_.site.place.latitude, hours), palette_);
        }
    }
    // Ribbons last: they lie on slips, which must find room between the rings.
    for (const auto& [holder, own] : by_holder) {
        if (spacing_of(own) >= least_ring_spacing) continue;
        if (draw_ribbon(holder, own, sun_day, hours)) {
            drawn.has_ribbons = true;
        } else {
            holder_notes_[static_cast<std::size_t>(holder)] = full_sun_range(own);
        }
    }
    return drawn;
}

void GardenPlan::add_to_holder(int holder, const SheetBox& box) {
    SheetBox& whole = holder_boxes_[static_cast<std::size_t>(holder)];
    const std::vector<SheetPoint> corners{whole.low, whole.high, box.low, box.high};
    whole = box_around(corners);
    labels_.avoid(box, 3.0);
}

bool GardenPlan::draw_ribbon(int holder, const std::vector<SpotDay>& days,
                             const sun::SunDay& sun_day, const std::vector<sun::CivilHour>& hours) {
    // One ribbon for each row of each tier, the farthest on top as on the plan.
    std::map<std::pair<int, int>, BenchRibbon> rows;
    const exposure::HotHours hot = exposure::hot_hours(sun_day);
    for (const SpotDay& day : days) {
        const scene::Spot& spot = spots_[day.spot];
        BenchRibbon& row = rows[{-spot.tier, -spot.row}];
        row.columns.push_back({spot.number, day.day->spans});
        row.hot_from = hot.from;
        row.hot_to = hot.to;
    }
    constexpr double inset = 6.0;
    SheetSize size{2.0 * inset, inset};
    for (auto& [place, row] : rows) {
        for (const sun::CivilHour& hour : hours) {
            if (hour.to > sun_day.up_from && hour.from < sun_day.up_to) row.hours.push_back(hour);
        }
        if (row.hours.empty()) return false;  // polar night
        const SheetSize own = ribbon_size(row);
        size = {std::max(size.width, own.width + 2.0 * inset), size.height + own.height + inset};
    }
    const SheetBox& bench = holder_boxes_[static_cast<std::size_t>(holder)];
    const std::optional<SheetBox> found = labels_.take_near(size.width, size.height, bench);
    if (!found) return false;
    const SheetBox& slip = *found;
    draw_string(canvas_, bench, slip, palette_);
    canvas_.fill(rounded_rectangle(slip, 4.0), palette_.page);
    canvas_.stroke(rounded_rectangle(slip, 4.0), {.colour = palette_.edge, .width = 1.0});
    double y = slip.low.y + inset;
    for (const auto& [place, row] : rows) {
        draw_bench_ribbon(canvas_, {slip.low.x + inset, y}, row, palette_);
        y += ribbon_size(row).height + inset;
    }
    return true;
}

void GardenPlan::draw_north_and_pole() {
    const SheetBox& panel = view_.panel();
    const double pole = view_.pixels(ranging_pole_m(view_.pixels_per_m()));
    const double width = pole + 96.0;
    const double height = 62.0;
    const SheetPoint inset{0.5 * width + 10.0, 0.5 * height + 8.0};
    const SheetPoint low = panel.low + inset;
    const SheetPoint high = panel.high - inset;
    const SheetBox box =
        labels_.take(width, height,
                     {{{high.x, high.y}}, {{low.x, high.y}}, {{high.x, low.y}}, {{low.x, low.y}}});
    const Vec2 north = scene::PlanFrame(scene_).plan_direction(Angle());
    draw_north_leaf(canvas_, {box.low.x + 32.0, box.centre().y}, {north.x, -north.y}, palette_);
    draw_ranging_pole(canvas_, {box.low.x + 74.0, box.centre().y + 12.0}, view_.pixels_per_m(),
                      palette_);
}

void GardenPlan::draw_marks_and_names() {
    draw_north_and_pole();
    ThingNames(canvas_, labels_, view_, scene_, date_, palette_)
        .write(holder_boxes_, holder_notes_);
}

}  // namespace sunfleck::output
