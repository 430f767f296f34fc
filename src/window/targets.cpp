#include "window/targets.h"

#include "sunfleck/base/plain_words.h"

#include <algorithm>

namespace sunfleck::window {
namespace {

constexpr double button_height = 24.0;
constexpr double page_left = 30.0;
constexpr double page_right = 16.0;

}  // namespace

double row_height(const ViewModel& view) {
    return view.stone() == Stone::plan ? 64.0 : 46.0;
}

double rows_top(const ViewModel& view) {
    const double page = view.regions().page.low.y;
    if (view.stone() == Stone::plan) return page + 204.0;
    return page + 148.0;
}

std::size_t rows_shown(const ViewModel& view) {
    const double foot = view.stone() == Stone::plan ? 88.0 : 40.0;
    const double room = view.regions().page.high.y - foot - rows_top(view);
    return static_cast<std::size_t>(std::max(1.0, room / row_height(view)));
}

std::vector<Target> sky_targets(const ViewModel& view) {
    const SheetBox clock = sky_parts(view.regions()).clock;
    const double top = clock.high.y - button_height - 6.0;
    const double widths[] = {108.0, 68.0, 72.0};
    const char* const names[] = {"play", "noon", "today"};
    const char* const words[] = {view.is_playing() ? "Stop" : "Play the day", "Noon", "Today"};
    const char* const keys[] = {"F2", "F3", "F4"};
    std::vector<Target> targets;
    double left = clock.low.x;
    for (std::size_t i = 0; i < 3; ++i) {
        targets.push_back(
            {names[i], output::box_at({left, top}, widths[i], button_height), words[i], keys[i]});
        left += widths[i] + 6.0;
    }
    return targets;
}

namespace {

void add_rows(const ViewModel& view, std::size_t count, std::vector<Target>& targets) {
    const SheetBox& page = view.regions().page;
    for (std::size_t i = 0; i < rows_shown(view); ++i) {
        if (view.first_row() + i >= count) break;
        const double top = rows_top(view) + static_cast<double>(i) * row_height(view);
        targets.push_back({"row " + std::to_string(i + 1),
                           {{page.low.x + page_left - 8.0, top},
                            {page.high.x - page_right + 4.0, top + row_height(view)}},
                           {},
                           {}});
    }
}

std::vector<Target> found_targets(const ViewModel& view) {
    const SheetPoint at = view.regions().page.low + SheetPoint{page_left, 186.0};
    return {{"take found", output::box_at(at, 120.0, 32.0), "Take them", {}, true},
            {"leave found",
             output::box_at(at + SheetPoint{132.0, 0.0}, 120.0, 32.0),
             "Leave them",
             {}}};
}

std::vector<Target> plan_targets(const ViewModel& view) {
    const SheetBox& page = view.regions().page;
    const double left = page.low.x + page_left;
    std::vector<Target> targets;
    if (!view.season().empty()) {
        const bool is_compact = view.regions().is_compact;
        // Behind the "in" of the question's second line.
        targets.push_back({"season",
                           output::box_at({left + (is_compact ? 26.0 : 28.0),
                                           page.low.y + (is_compact ? 44.0 : 46.0)},
                                          150.0, 26.0),
                           season_words(view.season()),
                           {}});
    }
    if (view.plan() == nullptr) return targets;
    const std::size_t moves = view.plan()->moves.size();
    add_rows(view, moves, targets);
    if (moves > 0 && view.is_plan_current()) {
        targets.push_back({"take", output::box_at({left, page.high.y - 46.0}, 168.0, 32.0),
                           "Take the " + std::to_string(moves), "Enter", true});
    }
    return targets;
}

}  // namespace

std::vector<Target> page_targets(const ViewModel& view) {
    if (view.has_found_changes()) return found_targets(view);
    if (view.stone() == Stone::plan) return plan_targets(view);
    std::vector<Target> targets;
    const SheetBox& page = view.regions().page;
    if (view.is_spot_open()) {
        targets.push_back(
            {"back", output::box_at({page.low.x + page_left, page.high.y - 46.0}, 150.0, 32.0),
             "All spots", "Esc"});
        return targets;
    }
    if (view.day() != nullptr) add_rows(view, view.day()->ranked.size(), targets);
    return targets;
}

std::vector<Target> path_targets(const ViewModel& view) {
    const SheetBox& path = view.regions().path;
    const double middle = path.centre().y;
    std::vector<Target> targets;
    targets.push_back(
        {"stone sun", output::box_at({path.low.x + 24.0, middle - 20.0}, 104.0, 40.0), "Sun", "1"});
    targets.push_back({"stone plan",
                       output::box_at({path.low.x + 146.0, middle - 23.0}, 104.0, 40.0), "Plan",
                       "2"});
    const double right = path.high.x - 20.0;
    targets.push_back(
        {"keep", output::box_at({right - 214.0, middle - 16.0}, 66.0, 32.0), "Keep", "Ctrl+S"});
    targets.push_back(
        {"undo", output::box_at({right - 140.0, middle - 16.0}, 66.0, 32.0), "Undo", "Ctrl+Z"});
    targets.push_back({"redo", output::box_at({right - 66.0, middle - 16.0}, 66.0, 32.0), "Redo",
                       "Ctrl+Shift+Z"});
    return targets;
}

std::vector<Target> all_targets(const ViewModel& view) {
    std::vector<Target> targets = sky_targets(view);
    for (const auto& more : {page_targets(view), path_targets(view)}) {
        targets.insert(targets.end(), more.begin(), more.end());
    }
    return targets;
}

}  // namespace sunfleck::window
