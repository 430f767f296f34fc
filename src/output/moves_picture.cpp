#include "output/carry_words.h"
#include "output/move_arrow.h"
#include "output/sheet.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/garden_plan.h"
#include "sunfleck/output/plan_picture.h"
#include "sunfleck/output/pot_marks.h"
#include "sunfleck/output/text_table.h"
#include "sunfleck/scene/bench_frame.h"

#include <algorithm>
#include <optional>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

namespace sunfleck::output {

using placement::MoveStep;

namespace {

constexpr double page_width = 400.0;
constexpr double head_height = 128.0;
constexpr double row_height = 44.0;
constexpr double foot_height = 116.0;
constexpr double margin = 24.0;

const placement::PotMove& move_of(const MovesAnswer& answer, std::size_t row) {
    return *std::find_if(answer.moves.moves.begin(), answer.moves.moves.end(),
                         [row](const auto& move) { return move.row == row; });
}

std::string title_of(const MovesAnswer& answer) {
    return "What moves for " + season_words(answer.period.table.season) + "?";
}

/// Unit vector of the sheet along the bench that holds a spot.
SheetPoint bench_direction(const scene::Scene& scene, const scene::Spot& spot) {
    const scene::PlanFrame frame(scene);
    const auto holder = static_cast<std::size_t>(spot.holder);
    const Vec2 along =
        holder < scene.benches.size()
            ? scene::BenchFrame(frame, scene.benches[holder]).along()
            : frame.plan_direction(scene.post_stands[holder - scene.benches.size()].bearing);
    return {along.x, -along.y};
}

/// One arrow for each pot that moves, numbered by its first step.
std::vector<MoveArrow> arrows_of(const MovesAnswer& answer, const PlanView& view) {
    std::vector<MoveArrow> arrows;
    for (const MoveStep& step : answer.moves.steps) {
        if (step.kind == MoveStep::Kind::put_down) continue;
        const auto& move = move_of(answer, step.row);
        arrows.push_back(
            {.from = view.at(answer.period.table.spots[move.from_spot].position),
             .to = view.at(answer.period.table.spots[move.to_spot].position),
             .number = step.order,
             .is_swap = answer.moves.groups[step.group].kind == placement::MoveGroup::Kind::swap,
             .needs_two = move.people > 1});
    }
    return arrows;
}

void draw_ground(Canvas& canvas, const SheetBox& panel, const MovesAnswer& answer,
                 const geometry::Garden& garden, const Palette& palette) {
    const auto& table = answer.period.table;
    const PlanView view(shown_part(answer.period.scene), panel);
    GardenPlan plan(canvas, answer.period.scene, table.spots, table.dates.from, view, palette);
    const ClipScope clip(canvas, rectangle(panel));
    plan.draw_garden(garden, nullptr);
    std::vector<bool> is_taken(table.spots.size(), false);
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        const auto& spot = table.rows[row].start_spot;
        if (!spot) continue;
        is_taken[*spot] = true;
        draw_pot(canvas, view.at(table.spots[*spot].position),
                 bench_direction(answer.period.scene, table.spots[*spot]),
                 answer.period.scene.pots[table.rows[row].pot], view.pixels_per_m(), palette);
    }
    plan.draw_free_spots(is_taken);
    const std::vector<MoveArrow> arrows = arrows_of(answer, view);
    for (const MoveArrow& arrow : arrows) {
        plan.labels().avoid(SheetBox{arrow.from, arrow.from}.grown(11.0), 4.0);
    }
    for (const MoveArrow& arrow : arrows) draw_move_arrow(canvas, arrow, palette);
    plan.draw_marks_and_names();
    for (const MoveArrow& arrow : arrows) draw_bead(canvas, arrow.from, arrow.number, palette);
}

std::string second_line(const MovesAnswer& answer, const MoveStep& step) {
    const auto& spots = answer.period.table.spots;
    const auto& move = move_of(answer, step.row);
    switch (step.kind) {
        case MoveStep::Kind::move:
            return "from " + spots[move.from_spot].name;
        case MoveStep::Kind::set_aside:
            return "from " + spots[move.from_spot].name + ", to wait";
        case MoveStep::Kind::put_down:
            break;
    }
    return "from the ground";
}

void draw_row(Canvas& canvas, SheetPoint at, double width, const MovesAnswer& answer,
              const MoveStep& step, const Palette& palette) {
    const auto& move = move_of(answer, step.row);
    draw_bead(canvas, {at.x + 10.0, at.y + 20.0}, step.order, palette);
    const std::string code =
        placement::pot_words(answer.period.scene, answer.period.table.rows[step.row]);
    draw_plant_label(canvas, {at.x + 30.0, at.y + 12.0}, code, palette);
    const std::string weight = weight_words(move.weight_kg) + (move.people > 1 ? " II" : "");
    const double weight_width = canvas.text_width(weight, 14.0, false);
    const double left = at.x + 136.0;
    const double room = at.x + width - left - weight_width - 12.0;
    const std::string goal = step.kind == MoveStep::Kind::set_aside
                                 ? std::string("set aside")
                                 : answer.period.table.spots[move.to_spot].name;
    canvas.text({left, at.y + 17.0}, canvas.cut_text(goal, 14.0, true, room),
                {.size = 14.0, .is_bold = true, .colour = palette.ink});
    canvas.text({left, at.y + 35.0},
                canvas.cut_text(second_line(answer, step), 13.0, false, at.x + width - left),
                {.size = 13.0, .colour = palette.soft_ink});
    canvas.text({at.x + width, at.y + 17.0}, weight,
                {.size = 14.0, .colour = palette.ink, .anchor = TextAnchor::end});
}

/// Cautions first, then what the list leaves out; from the lowest line up.
void draw_foot(Canvas& canvas, SheetPoint lowest, double width, const MovesAnswer& answer,
               std::size_t left_out, const Palette& palette) {
    constexpr double line_step = 20.0;
    constexpr int columns = 46;  // as many letters as the page takes
    std::vector<std::pair<std::string, bool>> lines;
    std::istringstream cautions(carry_cautions(answer.period, answer.moves));
    for (std::string text; std::getline(cautions, text);) {
        for (std::string& part : wrapped_lines(text, columns)) {
            lines.emplace_back(std::move(part), true);
        }
    }
    const bool has_two = std::any_of(answer.moves.moves.begin(), answer.moves.moves.end(),
                                     [](const auto& move) { return move.people > 1; });
    if (has_two) lines.emplace_back("II: two people", false);
    if (left_out > 0) {
        lines.emplace_back("and " + std::to_string(left_out) + " more in the list", false);
    }
    double y = lowest.y - line_step * (static_cast<double>(lines.size()) - 1.0);
    for (const auto& [text, is_caution] : lines) {
        canvas.text({lowest.x, y}, canvas.cut_text(text, 13.0, is_caution, width),
                    {.size = 13.0,
                     .is_bold = is_caution,
                     .colour = is_caution ? palette.clay : palette.soft_ink});
        y += line_step;
    }
}

void draw_page(Canvas& canvas, const SheetBox& page, const MovesAnswer& answer,
               const Palette& palette) {
    canvas.fill(rectangle(page), palette.page);
    const double left = page.low.x + margin;
    const double width = page.width() - 2.0 * margin;
    canvas.text({left, page.low.y + 40.0}, canvas.cut_text(title_of(answer), 22.0, true, width),
                {.size = 22.0, .is_bold = true, .colour = palette.ink});
    const auto& table = answer.period.table;
    const std::string dates =
        answer.period.scene.site.name + " · " + date_range_words(table.dates.from, table.dates.to);
    canvas.text({left, page.low.y + 66.0}, canvas.cut_text(dates, 13.0, false, width),
                {.size = 13.0, .colour = palette.soft_ink});
    const auto lifts = static_cast<std::size_t>(answer.moves.plan.lifts);
    const std::string sum = lifts == 0 ? "Nothing needs to move."
                                       : count_words(lifts, "lift") + ", " +
                                             weight_words(answer.moves.plan.moved_kg) + " in all";
    canvas.text({left, page.low.y + 96.0}, sum,
                {.size = 15.0, .is_bold = true, .colour = palette.ink});
    const auto& steps = answer.moves.steps;
    const double room = page.height() - head_height - foot_height;
    const auto fitting = static_cast<std::size_t>(std::max(room / row_height, 0.0));
    const std::size_t shown = std::min(steps.size(), fitting);
    for (std::size_t i = 0; i < shown; ++i) {
        const double y = page.low.y + head_height + row_height * static_cast<double>(i);
        if (i > 0 && steps[i].group != steps[i - 1].group) {
            canvas.stroke(line({left, y}, {left + width, y}),
                          {.colour = palette.rule, .width = 1.0});
        }
        draw_row(canvas, {left, y}, width, answer, steps[i], palette);
    }
    draw_foot(canvas, {left, page.high.y - 24.0}, width, answer, steps.size() - shown, palette);
}

void draw(Canvas& canvas, const MovesAnswer& answer, const geometry::Garden& garden, SheetSize size,
          const Palette& palette) {
    const double page = std::min(page_width, 0.5 * size.width);
    const double edge = size.width - page;
    draw_ground(canvas, box_at({}, edge, size.height), answer, garden, palette);
    draw_page(canvas, box_at({edge, 0.0}, page, size.height), answer, palette);
    canvas.stroke(line({edge, 0.0}, {edge, size.height}), {.colour = palette.ink, .width = 2.0});
}

double natural_height(const MovesAnswer& answer, double width) {
    constexpr double highest = 1600.0;
    const PlanBox part = shown_part(answer.period.scene);
    const double ground = (width - page_width) * part.height() / part.width();
    const double page =
        head_height + foot_height + row_height * static_cast<double>(answer.moves.steps.size());
    return std::clamp(std::max(ground, page), 0.45 * width, highest);
}

}  // namespace

Result<std::string> draw_moves(const MovesAnswer& answer, const PictureOptions& options) {
    const auto garden = geometry::build_garden(answer.period.scene);
    if (!garden) return tl::unexpected(garden.error());
    const SheetFormat format =
        sheet_format(options, [&](double width) { return natural_height(answer, width); });
    return drawn_sheet(format, options.format, title_of(answer), [&](Canvas& canvas) {
        draw(canvas, answer, *garden, format.size, morning);
    });
}

}  // namespace sunfleck::output
