#include "sunfleck/base/plain_words.h"
#include "sunfleck/geometry/passage.h"
#include "sunfleck/output/garden_plan.h"
#include "sunfleck/output/garden_shadows.h"
#include "sunfleck/output/plan_marks.h"
#include "sunfleck/output/plan_side.h"
#include "sunfleck/sun/sun_seen.h"
#include "window/painters.h"

#include <iterator>
#include <string>

namespace sunfleck::window {
namespace {

using namespace output;

SheetBox stance_box(const SheetBox& ground) {
    return box_at(ground.low + SheetPoint{12.0, 10.0}, 62.0, 26.0);
}

SheetBox legend_box(const SheetBox& ground) {
    constexpr double width = 392.0;
    constexpr double height = 38.0;
    return box_at({ground.low.x + 12.0, ground.high.y - height - 10.0}, width, height);
}

void paint_stance(Canvas& canvas, const SheetBox& ground, const Palette& palette) {
    const SheetBox slip = stance_box(ground);
    canvas.fill(rounded_rectangle(slip, 13.0), palette.ink);
    canvas.text(
        {slip.centre().x, slip.centre().y + 5.0}, "Above",
        {.size = 13.0, .is_bold = true, .colour = palette.page, .anchor = TextAnchor::middle});
}

void paint_legend(Canvas& canvas, const SheetBox& ground, const GardenPlan::Drawn& drawn,
                  const Palette& palette) {
    if (!drawn.has_rings && !drawn.has_ribbons) return;
    std::vector<LegendEntry> entries{
        {Swatch::full, "full sun"}, {Swatch::filtered, "filtered"}, {Swatch::shade, "shade"}};
    if (drawn.has_marks || drawn.has_ribbons) entries.push_back({Swatch::hot_hours, "hot hours"});
    const SheetBox slip = legend_box(ground);
    canvas.fill(rounded_rectangle(slip, 7.0), palette.page.at_opacity(0.86));
    draw_legend(canvas, slip.low + SheetPoint{10.0, 7.0}, ground.width(), entries, palette);
}

void paint_chosen(Canvas& canvas, const ViewModel& view, const GardenPlan& plan,
                  const Palette& palette) {
    const auto radius_of = [&](std::size_t spot) {
        return std::clamp(0.5 * plan.spacing(spot), 9.0, 22.0) + 3.0;
    };
    if (view.pointed_spot()) {
        const SheetPoint at = view.plan_view().at(view.spots()[*view.pointed_spot()].position);
        canvas.stroke(circle(at, radius_of(*view.pointed_spot())),
                      {.colour = palette.ink, .width = 1.6, .dashes = {2.0, 2.5}});
    }
    if (view.chosen_spot()) {
        const SheetPoint at = view.plan_view().at(view.spots()[*view.chosen_spot()].position);
        canvas.stroke(circle(at, radius_of(*view.chosen_spot())),
                      {.colour = palette.page, .width = 4.6});
        canvas.stroke(circle(at, radius_of(*view.chosen_spot())),
                      {.colour = palette.berry, .width = 2.4});
    }
}

// A slip beside the spot that is pointed at: its name and its day.
void paint_slip(Canvas& canvas, const ViewModel& view, const Palette& palette) {
    if (!view.pointed_spot() || !view.is_day_current()) return;
    const std::size_t spot = *view.pointed_spot();
    const auto& total = view.day()->days[spot].total;
    std::string words =
        view.spots()[spot].name + ": " + duration_words(total.full_min) + " of full sun";
    if (total.filtered_min >= 2.5) words += ", " + duration_words(total.filtered_min) + " filtered";
    const double width = canvas.text_width(words, 13.0, false) + 20.0;
    const SheetBox& ground = view.regions().ground;
    const SheetPoint at = view.plan_view().at(view.spots()[spot].position);
    const double left = std::clamp(at.x + 16.0, ground.low.x + 8.0, ground.high.x - width - 8.0);
    const double top = std::clamp(at.y - 46.0, ground.low.y + 8.0, ground.high.y - 40.0);
    const SheetBox slip = box_at({left, top}, width, 26.0);
    canvas.fill(rounded_rectangle(slip, 3.0), palette.page);
    canvas.stroke(rounded_rectangle(slip, 3.0), {.colour = palette.edge, .width = 1.2});
    canvas.text({left + 10.0, top + 18.0}, words, {.size = 13.0, .colour = palette.ink});
}

std::vector<SpotDay> days_shown(const ViewModel& view) {
    std::vector<SpotDay> days;
    if (view.day() == nullptr || view.day()->days.size() != view.spots().size()) return days;
    for (std::size_t i = 0; i < view.spots().size(); ++i) {
        days.push_back({i, &view.day()->days[i]});
    }
    return days;
}

void ring_chosen(Canvas& canvas, const ViewModel& view, const PlanView& plan,
                 const Palette& palette) {
    if (!view.chosen_spot()) return;
    const SheetPoint at = plan.at(view.spots()[*view.chosen_spot()].position);
    canvas.stroke(circle(at, 12.0), {.colour = palette.page, .width = 4.6});
    canvas.stroke(circle(at, 12.0), {.colour = palette.berry, .width = 2.4});
}

// How the pots fare where they stand, and where the plan puts them.
void paint_now_and_after(Canvas& canvas, const ViewModel& view, const geometry::Garden& garden,
                         const Palette& palette) {
    const PlanAnswers& plan = *view.plan();
    const SheetBox& ground = view.regions().ground;
    const double half = 0.5 * ground.width();
    const std::size_t lifts = plan.moves.size();
    const PlanSide sides[] = {
        {view.scene(), plan.table, "Now", start_of(plan.table)},
        {view.scene(), plan.table,
         lifts == 0 ? "After: nothing moves" : "After " + count_words(lifts, "lift"),
         plan.plan().spot_of_row}};
    constexpr double legend_height_px = 46.0;
    const double foot = ground.high.y - legend_height_px;
    for (std::size_t i = 0; i < std::size(sides); ++i) {
        const double left = ground.low.x + half * static_cast<double>(i);
        draw_plan_head(canvas, box_at({left, ground.low.y}, half, plan_head_height), sides[i],
                       palette);
        const PlanView side(shown_part(view.scene()),
                            {{left, ground.low.y + plan_head_height}, {left + half, foot}});
        draw_plan_side(canvas, side, garden, sides[i], palette);
        ring_chosen(canvas, view, side, palette);
    }
    canvas.fill(rectangle({{ground.low.x, foot}, ground.high}), palette.page);
    const double middle = ground.low.x + half;
    const Pen pen{.colour = palette.ink, .width = 1.4};
    canvas.stroke(line({middle, ground.low.y}, {middle, foot}), pen);
    canvas.stroke(line({ground.low.x, foot}, {ground.high.x, foot}), pen);
    const std::vector<LegendEntry> entries{
        {Swatch::content, "content"},       {Swatch::scorches, "scorches"},
        {Swatch::gets_hot, "pot gets hot"}, {Swatch::too_dark, "too dark"},
        {Swatch::moved, "moved here"},      {Swatch::free_spot, "free spot"}};
    draw_legend(canvas, {ground.low.x + 16.0, foot + 11.0}, ground.width() - 24.0, entries,
                palette);
}

}  // namespace

void GroundPainter::paint(Canvas& canvas, const ViewModel& view, const Palette& palette) {
    const scene::Scene& scene = view.scene();
    if (revision_ != view.document().revision()) {
        auto built = geometry::build_garden(scene);
        garden_ = built ? std::optional(std::move(*built)) : std::nullopt;
        revision_ = view.document().revision();
    }
    const SheetBox& ground = view.regions().ground;
    canvas.fill(rectangle(ground), palette.grass);
    if (!garden_) return;
    const ClipScope clip(canvas, rectangle(ground));
    if (view.stone() == Stone::plan && view.plan() != nullptr) {
        paint_now_and_after(canvas, view, *garden_, palette);
        return;
    }
    const Date date = view.moment().date;
    const sun::SunSeen seen = sun::sun_seen(view.instant(), scene.site.place);
    const scene::PlanFrame frame(scene);
    const ShadowCaster shadows(*garden_, geometry::optics_on(*garden_, date), frame,
                               seen.direction);
    GardenPlan plan(canvas, scene, view.spots(), date, view.plan_view(), palette);
    // Names, ribbons and the north leaf keep clear of what lies on the ground as slips.
    constexpr double hides_all = 50.0;
    plan.labels().avoid(stance_box(ground).grown(6.0), hides_all);
    plan.labels().avoid(legend_box(ground).grown(6.0), hides_all);
    plan.draw_garden(*garden_, seen.altitude > Angle{} ? &shadows : nullptr);
    GardenPlan::Drawn drawn;
    if (view.day() != nullptr) {
        drawn = plan.draw_days(days_shown(view), view.day()->sun_day, view.day()->hours);
    }
    plan.draw_marks_and_names();
    paint_chosen(canvas, view, plan, palette);
    paint_slip(canvas, view, palette);
    paint_legend(canvas, ground, drawn, palette);
    paint_stance(canvas, ground, palette);
}

}  // namespace sunfleck::window
