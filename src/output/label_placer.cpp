#include "sunfleck/output/label_placer.h"

#include "sunfleck/base/require.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>

namespace sunfleck::output {

namespace {

constexpr double line_height = 1.25;  // of a label's box, in text sizes

SheetBox box_of(const LabelPlacer::Place& place, double width, double height) {
    const bool is_upright = place.quarter_turns % 2 != 0;
    const SheetPoint half{0.5 * (is_upright ? height : width), 0.5 * (is_upright ? width : height)};
    return {place.middle - half, place.middle + half};
}

}  // namespace

LabelPlacer::LabelPlacer(Canvas& canvas, const SheetBox& panel) : canvas_(canvas), panel_(panel) {}

void LabelPlacer::avoid(const SheetBox& box, double weight) {
    obstacles_.push_back({box, weight});
}

double LabelPlacer::cost(const SheetBox& box) const {
    constexpr double outside_weight = 100.0;
    const double area = box.width() * box.height();
    double cost = outside_weight * (area - shared_area(box, panel_.grown(-4.0)));
    for (const Obstacle& obstacle : obstacles_) {
        cost += obstacle.weight * shared_area(box, obstacle.box);
    }
    return cost;
}

std::size_t LabelPlacer::best(double width, double height, const std::vector<Place>& places) const {
    SUNFLECK_REQUIRE(!places.empty(), "a label needs a place");
    // px²: earlier places win over ones hardly better, such as beside a building instead of on it.
    const double least_gain = std::max(1.0, 0.01 * width * height);
    std::size_t best = 0;
    double best_cost = cost(box_of(places[0], width, height));
    for (std::size_t i = 1; i < places.size(); ++i) {
        const double cost_here = cost(box_of(places[i], width, height));
        if (cost_here < best_cost - least_gain) {
            best = i;
            best_cost = cost_here;
        }
    }
    return best;
}

SheetBox LabelPlacer::take(double width, double height, const std::vector<Place>& places) {
    const SheetBox box = box_of(places[best(width, height, places)], width, height);
    avoid(box, 4.0);
    return box;
}

std::optional<SheetBox> LabelPlacer::take_near(double width, double height, const SheetBox& thing) {
    constexpr double step = 12.0;
    constexpr double gap = 10.0;
    constexpr double far_weight = 6.0;  // px² of things hidden that outweigh a pixel of distance
    const SheetBox kept_free = thing.grown(gap);
    std::optional<SheetBox> best;
    double best_cost = 0.0;
    for (double y = panel_.low.y + 6.0; y + height < panel_.high.y; y += step) {
        for (double x = panel_.low.x + 6.0; x + width < panel_.high.x; x += step) {
            const SheetBox box = box_at({x, y}, width, height);
            if (shared_area(box, kept_free) > 0.0) continue;
            const double far =
                std::hypot(box.centre().x - thing.centre().x, box.centre().y - thing.centre().y);
            const double cost_here = cost(box.grown(3.0)) + far_weight * far;
            if (best && cost_here >= best_cost) continue;
            best = box;
            best_cost = cost_here;
        }
    }
    // Crowns and buildings may lie under it, a bench or another box may not.
    constexpr double most_hidden = 0.25;
    if (!best || cost(*best) > most_hidden * width * height) return std::nullopt;
    avoid(*best, 4.0);
    return best;
}

void LabelPlacer::write(std::string_view name, const std::vector<Place>& places,
                        const TextStyle& style, double most_width) {
    const std::string text = canvas_.cut_text(name, style.size, style.is_bold, most_width);
    const double width = canvas_.text_width(text, style.size, style.is_bold);
    const double height = line_height * style.size;
    const Place& place = places[best(width, height, places)];
    avoid(box_of(place, width, height), 4.0);
    TextStyle placed = style;
    placed.anchor = TextAnchor::middle;
    placed.turn = Angle::degrees(-90.0 * place.quarter_turns);
    // The baseline lies a third of the size under the letters' middle.
    const double drop = 0.34 * style.size;
    const bool is_upright = place.quarter_turns % 2 != 0;
    const SheetPoint anchor = is_upright ? SheetPoint{place.middle.x + drop, place.middle.y}
                                         : SheetPoint{place.middle.x, place.middle.y + drop};
    canvas_.text(anchor, text, placed);
}

std::vector<LabelPlacer::Place> places_around(const SheetBox& box, double width, double height,
                                              double gap) {
    const SheetPoint c = box.centre();
    const double under = box.high.y + gap + 0.5 * height;
    const double over = box.low.y - gap - 0.5 * height;
    const double left = box.low.x - gap - 0.5 * width;
    const double right = box.high.x + gap + 0.5 * width;
    const double left_edge = box.low.x + 0.5 * width;
    const double right_edge = box.high.x - 0.5 * width;
    return {{{c.x, under}},
            {{c.x, over}},
            {{left_edge, under}},
            {{right_edge, under}},
            {{left_edge, over}},
            {{right_edge, over}},
            {{right, c.y}},
            {{left, c.y}},
            {{right, box.low.y + 0.5 * height}},
            {{left, box.low.y + 0.5 * height}},
            {{right, box.high.y - 0.5 * height}},
            {{left, box.high.y - 0.5 * height}}};
}

}  // namespace sunfleck::output
