#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/day_ring.h"
#include "sunfleck/output/pot_marks.h"
#include "sunfleck/output/text_table.h"
#include "sunfleck/output/words.h"
#include "window/painted_button.h"
#include "window/painters.h"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>

namespace sunfleck::window {
namespace {

using namespace output;

constexpr double left_margin = 30.0;
constexpr double right_margin = 16.0;

void paint_leaf(Canvas& canvas, const SheetBox& page, const Palette& palette) {
    canvas.fill(rectangle(page), palette.page);
    canvas.fill(rectangle({page.low, {page.low.x + 3.0, page.high.y}}), palette.rule);
    for (double y = page.low.y + 16.0; y < page.high.y - 8.0; y += 22.0) {
        canvas.stroke(circle({page.low.x + 10.0, y}, 2.2), {.colour = palette.edge, .width = 1.0});
    }
}

// Words in lines of that width in pixels.
std::vector<std::string> lines_of(const Canvas& canvas, const std::string& words, double size,
                                  bool is_bold, double width) {
    std::vector<std::string> lines(1);
    std::string_view rest = words;
    while (!rest.empty()) {
        const std::size_t end = end_of_word(rest);
        const std::string word(rest.substr(0, end));
        rest.remove_prefix(std::min(end + 1, rest.size()));
        const std::string longer = lines.back().empty() ? word : lines.back() + " " + word;
        if (!lines.back().empty() && canvas.text_width(longer, size, is_bold) > width) {
            lines.push_back(word);
        } else {
            lines.back() = longer;
        }
    }
    return lines;
}

// Gives the baseline of the next line.
double paint_lines(Canvas& canvas, SheetPoint at, const std::string& words, double width,
                   const TextStyle& style, double line_height) {
    for (const std::string& text : lines_of(canvas, words, style.size, style.is_bold, width)) {
        canvas.text(at, text, style);
        at.y += line_height;
    }
    return at.y;
}

double paint_question(Canvas& canvas, const ViewModel& view, const std::string& question,
                      const Palette& palette) {
    const SheetBox& page = view.regions().page;
    const double size = view.regions().is_compact ? 20.0 : 22.0;
    return paint_lines(canvas, {page.low.x + left_margin, page.low.y + 36.0}, question,
                       page.width() - left_margin - right_margin,
                       {.size = size, .is_bold = true, .colour = palette.ink}, 1.24 * size);
}

std::string kind_words(const scene::Pot& pot) {
    std::string words = pot.species;
    if (pot.soil_l > 0.0) {
        if (!words.empty()) words += ", ";
        words += fixed_words(pot.soil_l, pot.soil_l < 10.0 ? 1 : 0) + " L";
    }
    return words;
}

std::string faring_words(const SpotStanding& row) {
    switch (row.faring) {
        case Faring::bare:
            return "free";
        case Faring::content:
            return "content";
        case Faring::scorches:
            return "! scorches";
    }
    return {};
}

std::string bears_words(double hours) {
    constexpr double hardly_any_h = 0.25;
    return hours < hardly_any_h ? "hardly any" : "about " + duration_words(60.0 * hours);
}

void paint_row(Canvas& canvas, const ViewModel& view, const SpotStanding& row, const SheetBox& box,
               const Palette& palette) {
    const DayAnswers& day = *view.day();
    const auto& own = day.days[row.spot];
    if (row.spot == view.chosen_spot()) {
        canvas.fill(rounded_rectangle(box, 7.0), palette.berry.at_opacity(0.13));
        canvas.stroke(rounded_rectangle(box, 7.0), {.colour = palette.berry, .width = 1.4});
    }
    const SheetPoint ring{box.low.x + 25.0, box.centre().y};
    draw_day_ring(canvas, ring, 32.0,
                  day_ring(own, day.sun_day, view.scene().site.place.latitude, day.hours), palette);
    const double left = box.low.x + 50.0;
    const double right = box.high.x - 8.0;
    const std::string hot = duration_words(own.total.hot_full_min);
    const double hot_width = canvas.text_width(hot, 15.0, true);
    canvas.text({right, box.low.y + 19.0}, hot,
                {.size = 15.0, .is_bold = true, .colour = palette.ink, .anchor = TextAnchor::end});
    canvas.text(
        {left, box.low.y + 19.0},
        canvas.cut_text(view.spots()[row.spot].name, 15.0, true, right - left - hot_width - 12.0),
        {.size = 15.0, .is_bold = true, .colour = palette.ink});
    const std::string faring = faring_words(row);
    const bool is_caution = row.faring == Faring::scorches;
    canvas.text({right, box.low.y + 38.0}, faring,
                {.size = 13.0,
                 .is_bold = is_caution,
                 .colour = is_caution ? palette.clay : palette.soft_ink,
                 .anchor = TextAnchor::end});
    if (!row.pot) return;
    const scene::Pot& pot = view.scene().pots[*row.pot];
    const double label = draw_plant_label(canvas, {left, box.low.y + 33.0}, pot.label.id, palette);
    const double room =
        right - left - label - 8.0 - canvas.text_width(faring, 13.0, is_caution) - 10.0;
    canvas.text({left + label + 8.0, box.low.y + 38.0},
                canvas.cut_text(kind_words(pot), 13.0, false, room),
                {.size = 13.0, .colour = palette.soft_ink});
}

void paint_list(Canvas& canvas, const ViewModel& view, const Palette& palette) {
    const SheetBox& page = view.regions().page;
    const double width = page.width() - left_margin - right_margin;
    const double y = paint_question(canvas, view, "Who stands in sun in the hot hours?", palette);
    const SheetPoint sentence{page.low.x + left_margin, y + 8.0};
    if (view.spots().empty()) {
        paint_lines(canvas, sentence,
                    "No bench yet, so no spot to watch. Add a bench to the scene file.", width,
                    {.size = 14.5, .colour = palette.ink}, 25.0);
        return;
    }
    if (view.day() == nullptr) {
        canvas.text(sentence, "The sun's rays are being followed.",
                    {.size = 14.5, .colour = palette.soft_ink});
        return;
    }
    const DayAnswers& day = *view.day();
    paint_lines(canvas, sentence,
                "Full sun from " + clock_range_words(day.hot.from, day.hot.to, view.zone()) +
                    " on " + date_words(day.date) + ", most first.",
                width, {.size = 14.5, .colour = palette.ink}, 25.0);
    std::size_t shown = 0;
    for (const Target& target : page_targets(view)) {
        const std::size_t row = view.first_row() + shown;
        if (row >= day.ranked.size()) break;
        paint_row(canvas, view, day.ranked[row], target.box, palette);
        ++shown;
    }
    const std::size_t rest = day.ranked.size() - view.first_row() - shown;
    std::string foot = rest > 0 ? "and " + std::to_string(rest) + " more · " : "";
    foot += "Enter opens a spot";
    canvas.text({page.low.x + left_margin, page.high.y - 16.0}, foot,
                {.size = 12.5, .colour = palette.soft_ink});
}

void paint_spot(Canvas& canvas, const ViewModel& view, const Palette& palette) {
    const SheetBox& page = view.regions().page;
    const std::size_t spot = *view.chosen_spot();
    const double width = page.width() - left_margin - right_margin;
    double y =
        paint_question(canvas, view, "What does " + view.spots()[spot].name + " get?", palette) +
        8.0;
    const double left = page.low.x + left_margin;
    const DayAnswers* day = view.day();
    if (day == nullptr) return;
    const auto& own = day->days[spot];
    const double size = std::min(190.0, 0.55 * width);
    const SheetPoint centre{left + 0.5 * size + ring_margin(size),
                            y + 0.5 * size + ring_margin(size)};
    draw_day_ring(canvas, centre, size,
                  day_ring(own, day->sun_day, view.scene().site.place.latitude, day->hours),
                  palette);
    y = centre.y + 0.5 * size + ring_margin(size) + 30.0;
    struct Figure {
        const char* words;
        double minutes;
    };
    for (const Figure& figure :
         {Figure{"full sun", own.total.full_min}, Figure{"filtered", own.total.filtered_min},
          Figure{"full sun in the hot hours", own.total.hot_full_min}}) {
        canvas.text(
            {left + 76.0, y}, duration_words(figure.minutes),
            {.size = 18.0, .is_bold = true, .colour = palette.ink, .anchor = TextAnchor::end});
        canvas.text({left + 88.0, y}, figure.words, {.size = 14.5, .colour = palette.ink});
        y += 27.0;
    }
    y += 6.0;
    for (const auto& span : own.spans) {
        if (span.state == exposure::SunState::shade || y > page.high.y - 110.0) continue;
        if (span.to.seconds_after(span.from) < 150.0) continue;
        const bool is_full = span.state == exposure::SunState::full;
        canvas.text(
            {left, y},
            clock_words_at(span.from, view.zone()) + " to " + clock_words_at(span.to, view.zone()),
            {.size = 13.0, .colour = palette.ink});
        canvas.text({left + 110.0, y}, is_full ? "full sun" : "filtered",
                    {.size = 13.0, .is_bold = is_full, .colour = palette.ink});
        y += 20.0;
    }
    const auto row = std::ranges::find_if(
        day->ranked, [&](const SpotStanding& standing) { return standing.spot == spot; });
    if (row != day->ranked.end() && row->pot && row->faring == Faring::scorches) {
        const std::string& code = view.scene().pots[*row->pot].label.id;
        paint_lines(
            canvas, {left, y + 10.0},
            "! " + code + " bears " + bears_words(row->bears_hot_h) + " of it on a hot day.", width,
            {.size = 14.5, .is_bold = true, .colour = palette.clay}, 22.0);
    }
    for (const Target& target : page_targets(view)) paint_button(canvas, target, palette);
}

void paint_move(Canvas& canvas, const ViewModel& view, const PlannedMove& move, const SheetBox& box,
                const Palette& palette) {
    const PlanAnswers& plan = *view.plan();
    if (move.to == view.chosen_spot()) {
        canvas.fill(rounded_rectangle(box, 7.0), palette.berry.at_opacity(0.13));
        canvas.stroke(rounded_rectangle(box, 7.0), {.colour = palette.berry, .width = 1.4});
    }
    const double left = box.low.x + 10.0;
    const double right = box.high.x - 8.0;
    const scene::Pot& pot = view.scene().pots[plan.table.rows[move.row].pot];
    const double label = draw_plant_label(canvas, {left, box.low.y + 13.0}, pot.label.id, palette);
    canvas.text({left + label + 8.0, box.low.y + 18.0},
                canvas.cut_text("to " + plan.table.spots[move.to].name, 14.5, true,
                                right - left - label - 8.0),
                {.size = 14.5, .is_bold = true, .colour = palette.ink});
    auto lines = lines_of(canvas, move.reason, 12.5, false, right - left);
    if (lines.size() > 2) {
        for (std::size_t i = 2; i < lines.size(); ++i) lines[1] += " " + lines[i];
        lines[1] = canvas.cut_text(lines[1], 12.5, false, right - left);
        lines.resize(2);
    }
    double y = box.low.y + 38.0;
    for (const std::string& words : lines) {
        canvas.text({left, y}, words, {.size = 12.5, .colour = palette.soft_ink});
        y += 17.0;
    }
}

// What the plan brings, in one or two lines.
std::string plan_words(const PlanAnswers& plan) {
    if (plan.moves.empty()) {
        if (plan.in_harm_now == 0) return "Nothing need move: all pots are content.";
        return "Nothing moves: " + count_words(plan.in_harm_now, "pot") +
               " in harm, but no move would be worth its effort.";
    }
    std::string words = count_words(plan.moves.size(), "lift") + ", " +
                        weight_words(plan.plan().moved_kg) +
                        ". Pots in harm: " + std::to_string(plan.in_harm_now) + " now, " +
                        std::to_string(plan.in_harm_after) + " then.";
    const double gap = plan.plan().gap_fraction();
    if (gap <= 0.0) return words + " No plan does better: this is proved.";
    return words + " Proved to be within " + percent_words(std::ceil(100.0 * gap) / 100.0) +
           " of the best.";
}

void paint_plan(Canvas& canvas, const ViewModel& view, const Palette& palette) {
    const SheetBox& page = view.regions().page;
    const double left = page.low.x + left_margin;
    const double width = page.width() - left_margin - right_margin;
    // Two lines, whatever their widths, so that the season's blank has its place.
    const double question = view.regions().is_compact ? 20.0 : 22.0;
    for (const auto& [words, line] : {std::pair{"Where should the pots stand", 0.0}, {"in", 1.0}}) {
        canvas.text({left, page.low.y + 36.0 + 1.28 * question * line}, words,
                    {.size = question, .is_bold = true, .colour = palette.ink});
    }
    const PlanAnswers* plan = view.plan();
    for (const Target& target : page_targets(view)) {
        if (target.name == "season") {
            const double words = canvas.text_width(target.words, 18.0, true) + 16.0;
            const SheetBox blank = box_at(target.box.low, words, target.box.height());
            canvas.fill(rounded_rectangle(blank, 3.0), palette.moss_tint);
            canvas.stroke(line({blank.low.x, blank.high.y}, {blank.high.x, blank.high.y}),
                          {.colour = palette.moss, .width = 2.0});
            canvas.text({blank.low.x + 8.0, blank.high.y - 7.0}, target.words,
                        {.size = 18.0, .is_bold = true, .colour = palette.moss});
            canvas.text({blank.high.x + 4.0, blank.high.y - 6.0}, "?",
                        {.size = 20.0, .is_bold = true, .colour = palette.ink});
        }
    }
    const double y = rows_top(view) - 106.0;
    if (view.season().empty() || plan == nullptr || !view.is_plan_current()) {
        const bool is_waiting = view.trouble().empty();
        if (is_waiting) {
            paint_lines(canvas, {left, y},
                        "Weighing every pot at every spot. This takes some seconds.", width,
                        {.size = 14.5, .colour = palette.soft_ink}, 22.0);
        }
        if (plan == nullptr || !is_waiting) return;
    } else {
        double next = paint_lines(canvas, {left, y}, plan_words(*plan), width,
                                  {.size = 14.5, .colour = palette.ink}, 22.0);
        std::istringstream cautions(plan->cautions);
        for (std::string line; std::getline(cautions, line);) {
            next = paint_lines(canvas, {left, next - 2.0}, line, width,
                               {.size = 12.5, .is_bold = true, .colour = palette.clay}, 18.0);
        }
    }
    std::size_t shown = 0;
    for (const Target& target : page_targets(view)) {
        if (target.name == "take") paint_button(canvas, target, palette);
        if (!target.name.starts_with("row ")) continue;
        paint_move(canvas, view, plan->moves[view.first_row() + shown], target.box, palette);
        ++shown;
    }
    const std::size_t rest = plan->moves.size() - view.first_row() - shown;
    if (rest > 0) {
        canvas.text({left, page.high.y - 56.0}, "and " + std::to_string(rest) + " more",
                    {.size = 12.5, .colour = palette.soft_ink});
    }
}

void paint_found_changes(Canvas& canvas, const ViewModel& view, const Palette& palette) {
    const SheetBox& page = view.regions().page;
    const double y =
        paint_question(canvas, view, "Take the changes that were not kept?", palette) + 8.0;
    paint_lines(canvas, {page.low.x + left_margin, y},
                "Sunfleck stopped before this garden was kept. Undo brings back the kept one.",
                page.width() - left_margin - right_margin, {.size = 14.5, .colour = palette.ink},
                24.0);
    for (const Target& target : page_targets(view)) paint_button(canvas, target, palette);
}

}  // namespace

void paint_page(Canvas& canvas, const ViewModel& view, const Palette& palette) {
    paint_leaf(canvas, view.regions().page, palette);
    if (view.has_found_changes()) {
        paint_found_changes(canvas, view, palette);
    } else if (view.stone() == Stone::plan) {
        paint_plan(canvas, view, palette);
    } else if (view.is_spot_open() && view.chosen_spot()) {
        paint_spot(canvas, view, palette);
    } else {
        paint_list(canvas, view, palette);
    }
    if (view.trouble().empty()) return;
    const SheetBox& page = view.regions().page;
    const double width = page.width() - left_margin - right_margin;
    const auto lines = lines_of(canvas, "! " + view.trouble(), 13.0, true, width - 20.0);
    const double height = 20.0 * static_cast<double>(lines.size()) + 16.0;
    const SheetBox slip =
        box_at({page.low.x + left_margin - 4.0, page.high.y - height - 60.0}, width + 8.0, height);
    canvas.fill(rounded_rectangle(slip, 7.0), palette.clay_tint);
    paint_lines(canvas, slip.low + SheetPoint{12.0, 22.0}, "! " + view.trouble(), width - 20.0,
                {.size = 13.0, .is_bold = true, .colour = palette.clay}, 20.0);
}

}  // namespace sunfleck::window
