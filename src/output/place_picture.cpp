#include "output/sheet.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/plan_marks.h"
#include "sunfleck/output/plan_picture.h"
#include "sunfleck/output/plan_side.h"

#include <algorithm>
#include <iterator>

namespace sunfleck::output {

using placement::HarmTable;

namespace {

constexpr double title_height = 52.0;
constexpr double legend_height_px = 44.0;
constexpr double margin = 24.0;

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
    const scene::Scene& scene = answer.period.scene;
    const HarmTable& table = answer.period.table;
    const PlanSide sides[] = {
        {scene, table, "Now", start_of(table)},
        {scene, table, lifts == 0 ? "After: nothing moves" : "After " + count_words(lifts, "lift"),
         answer.plan.spot_of_row}};
    const double half = 0.5 * size.width;
    const double foot = size.height - legend_height_px;
    for (std::size_t i = 0; i < std::size(sides); ++i) {
        const double left = half * static_cast<double>(i);
        draw_plan_head(canvas, box_at({left, title_height}, half, plan_head_height), sides[i],
                       palette);
        const PlanView view(shown_part(scene),
                            {{left, title_height + plan_head_height}, {left + half, foot}});
        draw_plan_side(canvas, view, garden, sides[i], palette);
    }
    const Pen rule{.colour = palette.rule, .width = 1.0};
    canvas.stroke(line({0.0, title_height}, {size.width, title_height}), rule);
    const double top = title_height + plan_head_height;
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
    return title_height + plan_head_height + legend_height_px +
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
