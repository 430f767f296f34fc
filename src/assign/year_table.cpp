#include "year_table.h"

#include "sunfleck/base/require.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace sunfleck::assign {
namespace {

void require_sound(const YearProblem& problem) {
    SUNFLECK_REQUIRE(problem.period_count >= 0, "the number of periods is not negative");
    const auto place_count = static_cast<std::int32_t>(problem.places.size());
    for (const YearItem& item : problem.items) {
        SUNFLECK_REQUIRE(std::isfinite(item.move_effort) && item.move_effort >= 0.0,
                         "a move's effort is finite and not negative");
        SUNFLECK_REQUIRE(item.initial_place >= -1 && item.initial_place < place_count,
                         "an item's initial place exists");
        SUNFLECK_REQUIRE(item.places_of_period.size() == at(problem.period_count),
                         "an item has a list of places for every period");
        for (const auto& places : item.places_of_period) {
            std::vector<std::int32_t> listed;
            listed.reserve(places.size());
            for (const PlaceCost& place : places) listed.push_back(place.place);
            std::ranges::sort(listed);
            SUNFLECK_REQUIRE(listed.empty() || (listed.front() >= 0 && listed.back() < place_count),
                             "an item's places exist");
            SUNFLECK_REQUIRE(std::ranges::adjacent_find(listed) == listed.end(),
                             "an item lists a place once per period");
        }
    }
}

/// No plan of the year can cost more, whatever its moves.
double greatest_year(const YearProblem& problem) {
    double total = 0.0;
    for (const YearItem& item : problem.items) {
        total += item.move_effort * problem.period_count;
        for (const auto& places : item.places_of_period) {
            double greatest = 0.0;
            for (const PlaceCost& place : places) greatest = std::max(greatest, place.cost);
            total += greatest;
        }
    }
    return total;
}

PeriodProblem one_period(const YearProblem& problem, std::int32_t t) {
    PeriodProblem period;
    period.cell_count = problem.cell_count;
    period.load_limits = problem.load_limits;
    for (const YearItem& year_item : problem.items) {
        Item item;
        item.weight = year_item.weight;
        for (const PlaceCost& place : year_item.places_of_period[at(t)]) {
            const Place& where = problem.places[at(place.place)];
            item.choices.push_back({place.cost, where.cells, where.load});
        }
        period.items.push_back(std::move(item));
    }
    return period;
}

}  // namespace

YearTable::YearTable(const YearProblem& problem) : problem_(problem) {
    require_sound(problem);
    greatest_total_ = greatest_year(problem);
    for (std::int32_t t = 0; t < problem.period_count; ++t) add_period(t);
    if (!periods_.empty()) grain_ = periods_.front().grain;
    // One grain at least: nothing is moved for nothing.
    for (const YearItem& item : problem.items) {
        effort_.push_back(std::max<std::int64_t>(1, std::llround(item.move_effort / grain_)));
    }
    link_periods();
}

void YearTable::add_period(std::int32_t t) {
    // A harm and a move per item and period, and the grain that a move costs at least.
    const std::int64_t cost_count = std::int64_t{3} * period_count() * item_count();
    periods_.push_back(choice_table(one_period(problem_, t), greatest_total_, cost_count));
    const ChoiceTable& table = periods_.back();
    std::vector<std::int32_t> place(table.cost.size(), -1);
    for (std::int32_t item = 0; item < table.item_count(); ++item) {
        const auto& places = problem_.items[at(item)].places_of_period[at(t)];
        for (std::int32_t c = table.begin(item); c < table.left_over(item); ++c) {
            place[at(c)] = places[at(table.source[at(c)])].place;
        }
    }
    place_.push_back(std::move(place));
}

void YearTable::link_periods() {
    std::vector<std::int32_t> choice_at(problem_.places.size(), -1);
    for (std::int32_t t = 0; t + 1 < period_count(); ++t) {
        const ChoiceTable& now = period(t);
        const ChoiceTable& next = period(t + 1);
        std::vector<std::int32_t> stay(now.cost.size(), -1);
        for (std::int32_t item = 0; item < item_count(); ++item) {
            for (std::int32_t c = next.begin(item); c < next.left_over(item); ++c) {
                choice_at[at(place(t + 1, c))] = c;
            }
            for (std::int32_t c = now.begin(item); c < now.left_over(item); ++c) {
                stay[at(c)] = choice_at[at(place(t, c))];
            }
            stay[at(now.left_over(item))] = next.left_over(item);
            for (std::int32_t c = next.begin(item); c < next.left_over(item); ++c) {
                choice_at[at(place(t + 1, c))] = -1;
            }
        }
        stay_.push_back(std::move(stay));
    }
}

std::int64_t YearTable::step(std::int32_t t, std::int32_t item, std::int32_t from,
                             std::int32_t to) const {
    if (from < 0 || to < 0 || from == to) return 0;
    std::int64_t grains = move_effort(item);
    if (problem_.step_cost) {
        const double extra = problem_.step_cost(t, item, from, to);
        SUNFLECK_REQUIRE(std::isfinite(extra) && extra >= 0.0,
                         "a step's cost is finite and not negative");
        grains += std::llround(extra / grain_);
    }
    return grains;
}

std::int32_t YearTable::place_before(const YearChoices& plan, std::int32_t t,
                                     std::int32_t item) const {
    for (std::int32_t before = t - 1; before >= 0; --before) {
        const std::int32_t stood = place(before, plan[at(before)][at(item)]);
        if (stood >= 0) return stood;
    }
    return problem_.items[at(item)].initial_place;
}

std::int64_t YearTable::cost(const YearChoices& plan) const {
    std::int64_t total = 0;
    for (std::int32_t t = 0; t < period_count(); ++t) {
        total += total_cost(period(t), plan[at(t)]);
        for (std::int32_t item = 0; item < item_count(); ++item) {
            total += step(t, item, place_before(plan, t, item), place(t, plan[at(t)][at(item)]));
        }
    }
    return total;
}

}  // namespace sunfleck::assign
