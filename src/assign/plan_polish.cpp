#include "plan_polish.h"

#include "matching.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>
#include <utility>

namespace sunfleck::assign {
namespace {

constexpr std::int32_t none = -1;
constexpr std::size_t most_ejected = 4;

std::vector<std::int32_t> cells_of(const ChoiceTable& table, std::int32_t choice) {
    std::vector<std::int32_t> cells;
    for (const auto& use : table.uses_of(choice)) {
        if (use.resource < table.cell_count) cells.push_back(use.resource);
    }
    return cells;
}

/// Per item: the least cost of a choice that does not count against the load.
std::vector<std::int64_t> least_costs_without(const ChoiceTable& table, std::int32_t load) {
    std::vector<std::int64_t> least(at(table.item_count()), table.left_over_cost);
    for (std::int32_t item = 0; item < table.item_count(); ++item) {
        for (std::int32_t c = table.begin(item); c < table.end(item); ++c) {
            const bool counts = std::ranges::any_of(
                table.uses_of(c), [&](const auto& use) { return use.resource == load; });
            if (!counts) least[at(item)] = std::min(least[at(item)], table.cost[at(c)]);
        }
    }
    return least;
}

}  // namespace

PlanPolish::PlanPolish(const ChoiceTable& table)
    : table_(table), room_(table.capacity), holder_(at(table.cell_count), none) {
    for (std::int32_t item = 0; item < table.item_count(); ++item) {
        choice_.push_back(table.left_over(item));
        std::size_t width = 0;
        std::int64_t least = table.left_over_cost;
        for (std::int32_t c = table.begin(item); c < table.end(item); ++c) {
            width = std::max(width, cells_of(table, c).size());
            least = std::min(least, table.cost[at(c)]);
        }
        width_.push_back(width);
        least_cost_.push_back(least);
        by_size_.push_back(item);
    }
    std::ranges::stable_sort(by_size_, std::greater{},
                             [&](std::int32_t i) { return width_[at(i)]; });
    by_cost_.resize(table.cost.size());
    std::iota(by_cost_.begin(), by_cost_.end(), 0);
    for (std::int32_t item = 0; item < table.item_count(); ++item) {
        std::stable_sort(by_cost_.begin() + table.begin(item), by_cost_.begin() + table.end(item),
                         [&](auto a, auto b) { return table.cost[at(a)] < table.cost[at(b)]; });
    }
    for (std::int32_t load = table.cell_count; load < table.resource_count(); ++load) {
        least_without_.push_back(least_costs_without(table, load));
    }
    cost_ = total_cost(table, choice_);
}

void PlanPolish::put(std::int32_t item, std::int32_t choice) {
    cost_ += table_.cost[at(choice)] - table_.cost[at(choice_[at(item)])];
    choice_[at(item)] = choice;
    for (const auto& use : table_.uses_of(choice)) {
        room_[at(use.resource)] -= use.amount;
        if (use.resource < table_.cell_count) holder_[at(use.resource)] = item;
    }
}

void PlanPolish::take_out(std::int32_t item) {
    for (const auto& use : table_.uses_of(choice_[at(item)])) {
        room_[at(use.resource)] += use.amount;
        if (use.resource < table_.cell_count) holder_[at(use.resource)] = none;
    }
    cost_ += table_.left_over_cost - table_.cost[at(choice_[at(item)])];
    choice_[at(item)] = table_.left_over(item);
}

void PlanPolish::start_from(const std::vector<std::int32_t>& choices) {
    for (std::int32_t item = 0; item < table_.item_count(); ++item) take_out(item);
    for (std::int32_t item = 0; item < table_.item_count(); ++item) put(item, choices[at(item)]);
}

bool PlanPolish::has_room(std::int32_t choice) const {
    return std::ranges::all_of(table_.uses_of(choice), [&](const ChoiceTable::Use& use) {
        return use.amount <= 0 || use.amount <= room_[at(use.resource)];
    });
}

/// The item's cheapest choice with room that costs less than `limit`, or none.
std::int32_t PlanPolish::cheapest_with_room(std::int32_t item, std::int64_t limit) {
    for (std::int32_t k = table_.begin(item); k < table_.end(item); ++k) {
        const std::int32_t c = by_cost_[at(k)];
        ++effort_;
        if (table_.cost[at(c)] >= limit) return none;
        if (has_room(c)) return c;
    }
    return none;
}

void PlanPolish::construct(const std::function<double(std::int32_t)>& worth) {
    for (std::int32_t item = 0; item < table_.item_count(); ++item) take_out(item);
    for (const std::int32_t item : by_size_) {
        std::int32_t best = table_.left_over(item);
        double best_worth = worth(best);
        for (std::int32_t c = table_.begin(item); c < table_.left_over(item); ++c) {
            if (!has_room(c)) continue;
            const double choice_worth = worth(c);
            if (choice_worth < best_worth) {
                best = c;
                best_worth = choice_worth;
            }
        }
        put(item, best);
    }
}

void PlanPolish::improve(std::int64_t most_effort) {
    effort_limit_ = effort_ + most_effort;
    const std::set<std::size_t> widths(width_.begin(), width_.end());
    bool is_better = true;
    while (is_better) {
        is_better = false;
        while (improve_by_ejection()) is_better = true;
        for (const std::size_t width : widths) {
            if (improve_by_windows(width)) is_better = true;
        }
    }
}

bool PlanPolish::improve_by_ejection() {
    bool is_better = false;
    for (std::int32_t item = 0; item < table_.item_count(); ++item) {
        while (improve_item(item)) is_better = true;
    }
    return is_better;
}

/// Every gain has an item that itself gets cheaper: only such choices are tried.
bool PlanPolish::improve_item(std::int32_t item) {
    for (std::int32_t c = table_.begin(item); c < table_.end(item); ++c) {
        if (table_.cost[at(c)] >= table_.cost[at(choice_[at(item)])]) continue;
        if (effort_ > effort_limit_) return false;
        if (is_worth_a_look_ && !is_worth_a_look_(c)) continue;
        if (try_choice(item, c)) return true;
    }
    return false;
}

std::vector<std::int32_t> PlanPolish::holders_in_the_way(std::int32_t item,
                                                         std::int32_t choice) const {
    std::vector<std::int32_t> holders;
    for (const auto& use : table_.uses_of(choice)) {
        if (use.resource >= table_.cell_count) continue;
        const std::int32_t holder = holder_[at(use.resource)];
        if (holder == none || holder == item) continue;
        if (std::ranges::find(holders, holder) == holders.end()) holders.push_back(holder);
    }
    return holders;
}

std::int32_t PlanPolish::short_load(std::int32_t choice) const {
    for (const auto& use : table_.uses_of(choice)) {
        if (use.resource >= table_.cell_count && use.amount > 0 &&
            use.amount > room_[at(use.resource)]) {
            return use.resource;
        }
    }
    return none;
}

bool PlanPolish::try_choice(std::int32_t item, std::int32_t choice) {
    std::vector<std::int32_t> ejected = holders_in_the_way(item, choice);
    if (ejected.size() > most_ejected) return false;
    std::int64_t hope = table_.cost[at(choice_[at(item)])] - table_.cost[at(choice)];
    for (const std::int32_t holder : ejected) hope += most_gain(holder);
    return hope > 0 && try_ejecting(item, choice, ejected, hope);
}

/// Puts the item on the choice and whoever is ejected where it is cheapest. `hope` is what that
/// saves if each of them gets its cheapest choice of all. Where a load limit is passed, every
/// single item that counts against it is tried as one more to eject.
bool PlanPolish::try_ejecting(std::int32_t item, std::int32_t choice,
                              std::vector<std::int32_t>& ejected, std::int64_t hope) {
    std::vector<std::pair<std::int32_t, std::int32_t>> before{{item, choice_[at(item)]}};
    for (const std::int32_t other : ejected) before.emplace_back(other, choice_[at(other)]);
    for (const auto& [other, was] : before) take_out(other);
    const std::int32_t load = short_load(choice);
    if (load == none && put_with_gain(item, choice, ejected, hope)) return true;
    for (const auto& [other, was] : before) put(other, was);
    if (load == none || ejected.size() >= most_ejected) return false;
    for (std::int32_t other = 0; other < table_.item_count(); ++other) {
        if (other == item || std::ranges::find(ejected, other) != ejected.end()) continue;
        const auto uses = table_.uses_of(choice_[at(other)]);
        if (std::ranges::none_of(uses, [&](const auto& use) { return use.resource == load; })) {
            continue;
        }
        // It cannot come back to this limit, which was short without the item: there is less now.
        const std::int64_t gain = table_.cost[at(choice_[at(other)])] -
                                  least_without_[at(load - table_.cell_count)][at(other)];
        if (hope + gain <= 0) continue;
        ejected.push_back(other);
        if (try_ejecting(item, choice, ejected, hope + most_gain(other))) return true;
        ejected.pop_back();
    }
    return false;
}

/// False, and all of them taken out, where nothing is saved.
bool PlanPolish::put_with_gain(std::int32_t item, std::int32_t choice,
                               const std::vector<std::int32_t>& ejected, std::int64_t hope) {
    put(item, choice);
    std::vector<std::int32_t> order = ejected;
    std::ranges::stable_sort(order, std::greater{}, [&](auto other) { return width_[at(other)]; });
    for (std::size_t k = 0; k < order.size(); ++k) {
        const std::int64_t least = least_cost_[at(order[k])];
        const std::int32_t c = cheapest_with_room(order[k], least + hope);
        if (c == none) {
            for (std::size_t placed = 0; placed < k; ++placed) take_out(order[placed]);
            take_out(item);
            return false;
        }
        put(order[k], c);
        hope -= table_.cost[at(c)] - least;
    }
    return true;
}

/// All items of one width dealt anew, at least cost, among the windows they hold and free windows
/// that do not overlap: one assignment problem.
bool PlanPolish::improve_by_windows(std::size_t width) {
    std::vector<std::int32_t> items;
    std::map<std::vector<std::int32_t>, std::int32_t> windows;
    std::vector<bool> is_taken(at(table_.cell_count));
    for (std::int32_t cell = 0; cell < table_.cell_count; ++cell) {
        is_taken[at(cell)] = room_[at(cell)] == 0;
    }
    for (std::int32_t item = 0; item < table_.item_count(); ++item) {
        if (width_[at(item)] != width) continue;
        items.push_back(item);
        windows.emplace(cells_of(table_, choice_[at(item)]),
                        static_cast<std::int32_t>(windows.size()));
    }
    for (const std::int32_t item : items) {
        for (std::int32_t c = table_.begin(item); c < table_.left_over(item); ++c) {
            const std::vector<std::int32_t> cells = cells_of(table_, c);
            if (std::ranges::any_of(cells, [&](auto cell) { return is_taken[at(cell)]; })) continue;
            for (const std::int32_t cell : cells) is_taken[at(cell)] = true;
            windows.emplace(cells, static_cast<std::int32_t>(windows.size()));
        }
    }
    const auto window_count = static_cast<std::int32_t>(windows.size());
    std::vector<std::int32_t> first_arc{0};
    std::vector<std::int32_t> column;
    std::vector<std::int64_t> cost;
    std::vector<std::int32_t> choice_of_arc;
    for (std::size_t row = 0; row < items.size(); ++row) {
        for (std::int32_t c = table_.begin(items[row]); c < table_.end(items[row]); ++c) {
            const std::vector<std::int32_t> cells = cells_of(table_, c);
            const auto window = windows.find(cells);
            if (!cells.empty() && window == windows.end()) continue;
            column.push_back(cells.empty() ? window_count + static_cast<std::int32_t>(row)
                                           : window->second);
            cost.push_back(table_.cost[at(c)]);
            choice_of_arc.push_back(c);
        }
        first_arc.push_back(static_cast<std::int32_t>(column.size()));
    }
    const Matching matching = least_cost_matching(
        {first_arc, column, cost, window_count + static_cast<std::int32_t>(items.size())});
    std::vector<std::int32_t> dealt = choice_;
    for (std::size_t row = 0; row < items.size(); ++row) {
        dealt[at(items[row])] = choice_of_arc[at(matching.arc_of_row[row])];
    }
    if (total_cost(table_, dealt) >= cost_ || !fits(table_, dealt)) return false;
    start_from(dealt);
    return true;
}

}  // namespace sunfleck::assign
