#include "output/sheet.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/garden_plan.h"
#include "sunfleck/output/plan_marks.h"
#include "sunfleck/output/plan_picture.h"
#include "sunfleck/output/pot_marks.h"

#include <algorithm>

namespace sunfleck::output {

using placement::HarmTable;
using placement::PotState;
using placement::Standing;

namespace {

constexpr double title_height = 52.0;
constexpr double head_height = 68.0;
constexpr double legend_height_px = 44.0;
constexpr double margin = 24.0;

/// Where each row's pot stands on one of the two plans.
struct Side {
    std::string heading;
    Standing standing;
};

Standing start_of(const HarmTable& table) {
    Standing standing;
    for (const auto& row : table.rows) standing.push_back(row.start_spot);
    return standing;
}

std::size_t in_harm(const HarmTable& table, const Standing& standing) {
    std::size_t count = 0;
    for (std::size_t row = 0; row < standing.size(); ++row) {
        if (!standing[row]) continue;
        if (placement::state_at(table, row, *standing[row]) != PotState::content) ++count;
    }
    return count;
}

void draw_head(Canvas& canvas, const SheetBox& box, const HarmTable& table, const Side& side,
               const Palette& palette) {
    canvas.fill(rectangle(box), palette.page);
    canvas.text({box.low.x + margin, box.low.y + 30.0}, side.heading,
                {.size = 22.0, .is_bold = true, .colour = palette.ink});
    const std::size_t harmed = in_harm(table, side.standing);
    canvas.text(
        {box.low.x + margin, box.low.y + 54.0},
        harmed == 0 ? "all pots content" : count_words(harmed, "pot") + " in harm",
        {.size = 14.5, .is_bold = harmed > 0, .colour = harmed > 0 ? palette.clay : palette.ink});
}

double mark_radius(const GardenPlan& plan, const Standing& standing) {
    double spacing = 1e9;
    for (const auto& spot : standing) {
        if (spot) spacing = std::min(spacing, plan.spacing(*spot));
    }
    return std::clamp(0.36 * spacing, 3.0, 7.0);
}

void draw_side(Canvas& canvas, const SheetBox& panel, const PlaceAnswer& answer,
               const geometry::Garden& garden, const Side& side, const Palette& palette) {
    const HarmTable& table = answer.period.table;
    const PlanView view(shown_part(answer.period.scene), panel);
    GardenPlan plan(canvas, answer.period.scene, table.spots, table.dates.from, view, palette);
    const ClipScope clip(canvas, rectangle(panel));
    plan.draw_garden(garden, nullptr);
    std::vector<bool> is_taken(table.spots.size(), false);
    for (std::size_t row = 0; row < side.standing.size(); ++row) {
        if (!side.standing[row]) continue;
        for (const std::size_t spot : table.covered(row, *side.standing[row])) {
            is_taken[spot] = true;
        }
        is_taken[*side.standing[row]] = true;
    }
    plan.draw_free_spots(is_taken);
    const double radius = mark_radius(plan, side.standing);
    for (std::size_t row = 0; row < side.standing.size(); ++row) {
        if (!side.standing[row]) continue;
        const std::size_t spot = *side.standing[row];
        const SheetPoint centre = view.at(table.spots[spot].position);
        const auto& start = table.rows[row].start_spot;
        if (start && *start != spot) {
            canvas.stroke(circle(centre, radius + 2.6), {.colour = palette.moss, .width = 1.8});
        }
        draw_pot_state(canvas, centre, radius, placement::state_at(table, row, spot), palette);
    }
    plan.draw_marks_and_names();
}

std::string title_of(const PlaceAnswer& answer) {
    const HarmTable& table = answer.period.table;
    return answer.period.scene.site.name + " · " +
           (table.season.empty() ? "" : season_words(table.season) + ", ") +
           date_range_words(table.dates.from, table.dates.to);
}

void draw(Canvas& canvas, const PlaceAnswer& answer, const geometry::Garden& garden, SheetSize size,
          const Palette& palette) {
    canvas.fill(rectangle(box_at({}, size.width, size.height)), palette.page);
    canvas.text({margin, 33.0},
                canvas.cut_text(title_of(answer), 18.0, true, size.width - 2.0 * margin),
                {.size = 18.0, .is_bold = true, .colour = palette.ink});
    const auto lifts = static_cast<std::size_t>(answer.plan.lifts);
    const std::vector<Side> sides{
        {"Now", start_of(answer.period.table)},
        {lifts == 0 ? "After: nothing moves" : "After " + count_words(lifts, "lift"),
         answer.plan.spot_of_row}};
    const double half = 0.5 * size.width;
    const double foot = size.height - legend_height_px;
    for (std::size_t i = 0; i < sides.size(); ++i) {
        const double left = half * static_cast<double>(i);
        draw_head(canvas, box_at({left, title_height}, half, head_height), answer.period.table,
                  sides[i], palette);
        draw_side(canvas, {{left, title_height + head_height}, {left + half, foot}}, answer, garden,
                  sides[i], palette);
    }
    const Pen rule{.colour = palette.rule, .width = 1.0};
    canvas.stroke(line({0.0, title_height}, {size.width, title_height}), rule);
    const double top = title_height + head_height;
    canvas.stroke(line({0.0, top}, {size.width, top}), {.colour = palette.ink, .width = 1.4});
    canvas.stroke(line({0.0, foot}, {size.width, foot}), {.colour = palette.ink, .width = 1.4});
    canvas.stroke(line({half, title_height}, {half, foot}), {.colour = palette.ink, .width = 2.0});
    const std::vector<LegendEntry> entries{
        {Swatch::content, "content"},       {Swatch::scorches, "scorches"},
        {Swatch::gets_hot, "pot gets hot"}, {Swatch::too_dark, "too dark"},
        {Swatch::moved, "moved here"},      {Swatch::free_spot, "free spot"}};
    draw_legend(canvas, {margin, foot + 10.0}, size.width - 2.0 * margin, entries, palette);
}

double natural_height(const scene::Scene& scene, double width) {
    const PlanBox part = shown_part(scene);
    const double plan = 0.5 * width * part.height() / part.width();
    return title_height + head_height + legend_height_px +
           std::clamp(plan, 0.24 * width, 0.62 * width);
}

}  // namespace

Result<std::string> draw_place(const PlaceAnswer& answer, const PictureOptions& options) {
    const auto garden = geometry::build_garden(answer.period.scene);
    if (!garden) return tl::unexpected(garden.error());
    const SheetFormat format = sheet_format(
        options, [&](double width) { return natural_height(answer.period.scene, width); });
    return drawn_sheet(format, options.format, title_of(answer), [&](Canvas& canvas) {
        draw(canvas, answer, *garden, format.size, morning);
    });
}

}  // namespace sunfleck::output
