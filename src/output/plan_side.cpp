#include "sunfleck/output/plan_side.h"

#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/garden_plan.h"
#include "sunfleck/output/pot_marks.h"

#include <algorithm>

namespace sunfleck::output {

using placement::HarmTable;
using placement::PotState;
using placement::Standing;

namespace {

constexpr double margin = 24.0;

double mark_radius(const GardenPlan& plan, const Standing& standing) {
    double spacing = 1e9;
    for (const auto& spot : standing) {
        if (spot) spacing = std::min(spacing, plan.spacing(*spot));
    }
    return std::clamp(0.36 * spacing, 3.0, 7.0);
}

std::vector<bool> taken_spots(const HarmTable& table, const Standing& standing) {
    std::vector<bool> is_taken(table.spots.size(), false);
    for (std::size_t row = 0; row < standing.size(); ++row) {
        if (!standing[row]) continue;
        for (const std::size_t spot : table.covered(row, *standing[row])) is_taken[spot] = true;
        is_taken[*standing[row]] = true;
    }
    return is_taken;
}

}  // namespace

Standing start_of(const HarmTable& table) {
    Standing standing;
    for (const auto& row : table.rows) standing.push_back(row.start_spot);
    return standing;
}

std::size_t pots_in_harm(const HarmTable& table, const Standing& standing) {
    std::size_t count = 0;
    for (std::size_t row = 0; row < standing.size(); ++row) {
        if (!standing[row]) continue;
        if (placement::state_at(table, row, *standing[row]) != PotState::content) ++count;
    }
    return count;
}

void draw_plan_head(Canvas& canvas, const SheetBox& box, const PlanSide& side,
                    const Palette& palette) {
    canvas.fill(rectangle(box), palette.page);
    canvas.text({box.low.x + margin, box.low.y + 30.0}, side.heading,
                {.size = 22.0, .is_bold = true, .colour = palette.ink});
    const std::size_t harmed = pots_in_harm(side.table, side.standing);
    canvas.text(
        {box.low.x + margin, box.low.y + 54.0},
        harmed == 0 ? "all pots content" : count_words(harmed, "pot") + " in harm",
        {.size = 14.5, .is_bold = harmed > 0, .colour = harmed > 0 ? palette.clay : palette.ink});
}

void draw_plan_side(Canvas& canvas, const PlanView& view, const geometry::Garden& garden,
                    const PlanSide& side, const Palette& palette) {
    const HarmTable& table = side.table;
    GardenPlan plan(canvas, side.scene, table.spots, table.dates.from, view, palette);
    const ClipScope clip(canvas, rectangle(view.panel()));
    plan.draw_garden(garden, nullptr);
    plan.draw_free_spots(taken_spots(table, side.standing));
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

}  // namespace sunfleck::output
