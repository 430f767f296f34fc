#include "year_polish.h"

#include <algorithm>
#include <limits>
#include <set>
#include <utility>

namespace sunfleck::assign {
namespace {

constexpr std::size_t most_in_the_way = 4;

}  // namespace

YearScore year_score(const YearTable& table, const YearChoices& plan) {
    YearScore score;
    for (std::int32_t t = 0; t < table.period_count(); ++t) {
        const ChoiceTable& period = table.period(t);
        for (std::int32_t item = 0; item < table.item_count(); ++item) {
            const std::int32_t choice = plan[at(t)][at(item)];
            if (choice == period.left_over(item)) {
                ++score.left_over;
                continue;
            }
            score.cost += period.cost[at(choice)];
            score.cost +=
                table.step(t, item, table.place_before(plan, t, item), table.place(t, choice));
        }
    }
    return score;
}

YearPolish::YearPolish(const YearTable& table, YearChoices plan, const SearchEffort& effort)
    : table_(table), effort_(effort), plan_(std::move(plan)), score_(year_score(table, plan_)) {}

void YearPolish::improve(int rounds) {
    bool is_better = true;
    for (int round = 0; round < rounds && is_better; ++round) {
        is_better = false;
        for (std::int32_t item = 0; item < table_.item_count(); ++item) {
            if (improve_item(item)) is_better = true;
        }
        for (std::int32_t length = 1; length <= table_.period_count(); ++length) {
            for (std::int32_t t = 0; t + length <= table_.period_count(); ++t) {
                if (improve_window(t, t + length - 1)) is_better = true;
            }
        }
    }
}

bool YearPolish::take_if_better(const YearChoices& plan) {
    const YearScore score = year_score(table_, plan);
    if (score >= score_) return false;
    plan_ = plan;
    score_ = score;
    return true;
}

std::vector<std::vector<std::int64_t>> YearPolish::room_without(std::int32_t item) const {
    std::vector<std::vector<std::int64_t>> room;
    for (std::int32_t t = 0; t < table_.period_count(); ++t) {
        room.push_back(table_.period(t).capacity);
        for (std::int32_t other = 0; other < table_.item_count(); ++other) {
            if (other == item) continue;
            for (const auto& use : table_.period(t).uses_of(plan_[at(t)][at(other)])) {
                room.back()[at(use.resource)] -= use.amount;
            }
        }
    }
    return room;
}

void YearPolish::put(std::int32_t item, const std::vector<std::int32_t>& year) {
    for (std::int32_t t = 0; t < table_.period_count(); ++t) {
        plan_[at(t)][at(item)] = year[at(t)];
    }
}

/// Who holds something that the year needs and the others do not leave.
std::vector<std::int32_t> YearPolish::items_in_the_way(
    std::int32_t item, const std::vector<std::int32_t>& year) const {
    const auto room = room_without(item);
    std::set<std::int32_t> in_the_way;
    for (std::int32_t t = 0; t < table_.period_count(); ++t) {
        for (const auto& need : table_.period(t).uses_of(year[at(t)])) {
            if (need.amount <= room[at(t)][at(need.resource)]) continue;
            for (std::int32_t other = 0; other < table_.item_count(); ++other) {
                const auto uses = table_.period(t).uses_of(plan_[at(t)][at(other)]);
                const bool holds = std::ranges::any_of(
                    uses, [&](const auto& use) { return use.resource == need.resource; });
                if (holds && other != item) in_the_way.insert(other);
            }
        }
    }
    return {in_the_way.begin(), in_the_way.end()};
}

bool YearPolish::try_year(std::int32_t item, const std::vector<std::int32_t>& year) {
    std::vector<std::int32_t> others = items_in_the_way(item, year);
    if (others.size() > most_in_the_way) return false;
    if (try_year_before(item, year, others)) return true;
    if (others.size() < 2) return false;
    std::ranges::reverse(others);
    return try_year_before(item, year, others);
}

/// The others choose in their order.
bool YearPolish::try_year_before(std::int32_t item, const std::vector<std::int32_t>& year,
                                 const std::vector<std::int32_t>& others) {
    const YearChoices before = plan_;
    std::vector<std::int32_t> nowhere;
    for (const std::int32_t other : others) {
        nowhere.clear();
        for (std::int32_t t = 0; t < table_.period_count(); ++t) {
            nowhere.push_back(table_.period(t).left_over(other));
        }
        put(other, nowhere);
    }
    put(item, year);
    for (const std::int32_t other : others) put(other, cheapest_year(other));
    const YearScore score = year_score(table_, plan_);
    const bool is_better = score < score_;
    if (is_better) {
        score_ = score;
    } else {
        plan_ = before;
    }
    return is_better;
}

bool YearPolish::improve_item(std::int32_t item) {
    const std::vector<std::int32_t> year = cheapest_year(item);
    YearChoices plan = plan_;
    for (std::int32_t t = 0; t < table_.period_count(); ++t) plan[at(t)][at(item)] = year[at(t)];
    return plan != plan_ && take_if_better(plan);
}

/// Dynamic programming backwards over the choices with room. Step costs beyond the effort are
/// left out of it: the score decides.
std::vector<std::int32_t> YearPolish::cheapest_year(std::int32_t item) const {
    const auto room = room_without(item);
    const std::int64_t effort = table_.move_effort(item);
    const std::int32_t periods = table_.period_count();
    std::vector<std::vector<std::int64_t>> cost(at(periods));
    std::vector<std::int32_t> cheapest(at(periods));
    for (std::int32_t t = periods - 1; t >= 0; --t) {
        const ChoiceTable& period = table_.period(t);
        const std::int32_t begin = period.begin(item);
        const bool is_last = t + 1 == periods;
        const std::int32_t next_begin = is_last ? 0 : table_.period(t + 1).begin(item);
        cheapest[at(t)] = period.left_over(item);
        for (std::int32_t c = begin; c < period.end(item); ++c) {
            const bool has_room = std::ranges::all_of(period.uses_of(c), [&](const auto& use) {
                return use.amount <= room[at(t)][at(use.resource)];
            });
            std::int64_t rest = 0;
            if (!is_last) {
                const auto& next = cost[at(t + 1)];
                rest = next[at(cheapest[at(t + 1)] - next_begin)] + effort;
                const std::int32_t same = table_.stay(t, c);
                if (same >= 0) rest = std::min(rest, next[at(same - next_begin)]);
            }
            cost[at(t)].push_back(has_room ? period.cost[at(c)] + rest
                                           : std::numeric_limits<std::int64_t>::max() / 4);
            const std::int64_t least = cost[at(t)].back();
            if (c > begin && least < cost[at(t)][at(cheapest[at(t)] - begin)]) cheapest[at(t)] = c;
            if (c == begin) cheapest[at(t)] = c;
        }
    }
    std::vector<std::int32_t> year;
    const std::int32_t initial = table_.problem().items[at(item)].initial_place;
    for (std::int32_t t = 0; t < periods; ++t) {
        const ChoiceTable& period = table_.period(t);
        const std::int32_t begin = period.begin(item);
        std::int32_t stay = t > 0 ? table_.stay(t - 1, year.back()) : -1;
        for (std::int32_t c = begin; t == 0 && c < period.left_over(item); ++c) {
            if (table_.place(0, c) == initial) stay = c;
        }
        const std::int32_t move = cheapest[at(t)];
        const bool is_free = t == 0 && initial < 0;
        const bool stays = stay >= 0 && cost[at(t)][at(stay - begin)] <=
                                            cost[at(t)][at(move - begin)] + (is_free ? 0 : effort);
        year.push_back(stays ? stay : move);
    }
    return year;
}

bool YearPolish::stays_put(std::int32_t item, std::int32_t first, std::int32_t last) const {
    for (std::int32_t t = first; t < last; ++t) {
        if (table_.stay(t, plan_[at(t)][at(item)]) != plan_[at(t + 1)][at(item)]) return false;
    }
    return true;
}

void YearPolish::add_choices(Window& window, std::int32_t item, std::int32_t first,
                             std::int32_t last) const {
    const ChoiceTable& period = table_.period(first);
    const std::int32_t before = table_.place_before(plan_, first, item);
    std::int32_t after = -1;
    std::int32_t after_period = last + 1;
    while (after < 0 && after_period < table_.period_count()) {
        after = table_.place(after_period, plan_[at(after_period)][at(item)]);
        if (after < 0) ++after_period;
    }
    for (std::int32_t c = period.begin(item); c < period.end(item); ++c) {
        std::int64_t cost = 0;
        std::int32_t kept = c;
        for (std::int32_t t = first; t <= last && kept >= 0; ++t) {
            cost += table_.period(t).cost[at(kept)];
            if (t < last) kept = table_.stay(t, kept);
        }
        const auto uses = period.uses_of(c);
        const bool has_room = std::ranges::all_of(uses, [&](const auto& use) {
            return use.amount <= window.table.capacity[at(use.resource)];
        });
        if (kept < 0 || !has_room) continue;
        const std::int32_t place = table_.place(first, c);
        cost += table_.step(first, item, before, place);
        if (after >= 0) cost += table_.step(after_period, item, place, after);
        window.table.uses.insert(window.table.uses.end(), uses.begin(), uses.end());
        window.table.cost.push_back(cost);
        window.table.source.push_back(place < 0 ? -1 : c);
        window.table.first_use.push_back(static_cast<std::int32_t>(window.table.uses.size()));
        window.choice.push_back(c);
    }
    window.table.first_choice.push_back(window.table.choice_count());
}

/// Takes from the capacity what the items that do not stay put hold at any time in the window.
void YearPolish::reserve_others(Window& window, std::int32_t first, std::int32_t last) const {
    std::vector<std::int64_t>& capacity = window.table.capacity;
    std::vector<std::int64_t> most(capacity.size(), 0);
    for (std::int32_t t = first; t <= last; ++t) {
        std::vector<std::int64_t> held(capacity.size(), 0);
        for (std::int32_t item = 0; item < table_.item_count(); ++item) {
            if (std::ranges::binary_search(window.items, item)) continue;
            for (const auto& use : table_.period(t).uses_of(plan_[at(t)][at(item)])) {
                held[at(use.resource)] += use.amount;
            }
        }
        for (std::size_t r = 0; r < held.size(); ++r) most[r] = std::max(most[r], held[r]);
    }
    for (std::size_t r = 0; r < most.size(); ++r) {
        capacity[r] = std::max<std::int64_t>(0, capacity[r] - most[r]);
    }
}

YearPolish::Window YearPolish::window(std::int32_t first, std::int32_t last) const {
    Window window;
    window.table.capacity = table_.period(first).capacity;
    window.table.cell_count = table_.period(first).cell_count;
    window.table.grain = table_.grain();
    for (std::int32_t item = 0; item < table_.item_count(); ++item) {
        if (stays_put(item, first, last)) window.items.push_back(item);
    }
    reserve_others(window, first, last);
    for (const std::int32_t item : window.items) add_choices(window, item, first, last);
    const std::vector<std::int64_t> cost = window.table.cost;
    window.table.left_over_cost =
        table_.period(first).left_over_cost * std::int64_t{last - first + 1};
    set_costs(window.table, cost);
    return window;
}

bool YearPolish::improve_window(std::int32_t first, std::int32_t last) {
    const Window open = window(first, last);
    if (open.items.size() < 2) return false;
    const ProvedPlan dealt = least_cost_plan(open.table, effort_);
    YearChoices plan = plan_;
    for (std::size_t row = 0; row < open.items.size(); ++row) {
        std::int32_t c = open.choice[at(dealt.choices[row])];
        for (std::int32_t t = first; t <= last; ++t) {
            plan[at(t)][at(open.items[row])] = c;
            if (t < last) c = table_.stay(t, c);
        }
    }
    return plan != plan_ && take_if_better(plan);
}

}  // namespace sunfleck::assign
