#include "choice_table.h"

#include "sunfleck/base/require.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::assign {
namespace {

constexpr double most_weight = 1e9;
// Even with every item left over, sums stay inside 64 bits with room for prices.
constexpr double most_grains = 1e17;

std::int64_t in_grains(double value, double grain) {
    return std::llround(value / grain);
}

bool is_amount(double value) {
    return std::isfinite(value) && value >= 0.0;
}

void require_sound(const Choice& choice, const PeriodProblem& problem) {
    SUNFLECK_REQUIRE(is_amount(choice.cost), "a choice's cost is finite and not negative");
    SUNFLECK_REQUIRE(
        choice.load >= -1 && choice.load < static_cast<std::int32_t>(problem.load_limits.size()),
        "a choice's load limit exists");
    std::int32_t previous = -1;
    for (const std::int32_t cell : choice.cells) {
        SUNFLECK_REQUIRE(cell > previous && cell < problem.cell_count,
                         "a choice's cells exist and ascend");
        previous = cell;
    }
}

void require_sound(const PeriodProblem& problem) {
    SUNFLECK_REQUIRE(problem.cell_count >= 0, "the number of cells is not negative");
    for (const double limit : problem.load_limits) {
        SUNFLECK_REQUIRE(is_amount(limit), "a load limit is finite and not negative");
    }
    for (const Item& item : problem.items) {
        SUNFLECK_REQUIRE(is_amount(item.weight) && item.weight < most_weight,
                         "an item's weight is finite, not negative and below 1e9");
        for (const Choice& choice : item.choices) require_sound(choice, problem);
    }
}

/// The greatest total cost any plan can have.
double greatest_total(const PeriodProblem& problem) {
    double total = 0.0;
    for (const Item& item : problem.items) {
        double greatest = 0.0;
        for (const Choice& choice : item.choices) greatest = std::max(greatest, choice.cost);
        total += greatest;
    }
    return total;
}

void add_choice(ChoiceTable& table, std::int64_t cost, std::int32_t source) {
    table.cost.push_back(cost);
    table.source.push_back(source);
    table.first_use.push_back(static_cast<std::int32_t>(table.uses.size()));
}

void add_item(ChoiceTable& table, const Item& item) {
    const std::int64_t weight = in_grains(item.weight, weight_grain);
    for (std::size_t c = 0; c < item.choices.size(); ++c) {
        const Choice& choice = item.choices[c];
        const std::int32_t load = table.cell_count + choice.load;
        const bool is_loaded = choice.load >= 0 && weight > 0;
        if (is_loaded && weight > table.capacity[at(load)]) continue;
        for (const std::int32_t cell : choice.cells) table.uses.push_back({cell, 1});
        if (is_loaded) table.uses.push_back({load, weight});
        add_choice(table, in_grains(choice.cost, table.grain), static_cast<std::int32_t>(c));
    }
    add_choice(table, table.left_over_cost, -1);
    table.first_choice.push_back(table.choice_count());
}

}  // namespace

ChoiceTable choice_table(const PeriodProblem& problem) {
    require_sound(problem);
    return choice_table(problem, greatest_total(problem),
                        static_cast<std::int64_t>(problem.items.size()));
}

ChoiceTable choice_table(const PeriodProblem& problem, double greatest_total,
                         std::int64_t cost_count) {
    require_sound(problem);
    SUNFLECK_REQUIRE(std::isfinite(greatest_total), "the sum of all costs is finite");
    ChoiceTable table;
    const auto counted = static_cast<double>(cost_count);
    table.grain = std::max(1e-6, greatest_total * (counted + 1.0) / most_grains);
    // A grain of rounding per cost, and one to be dearer than all.
    table.left_over_cost = in_grains(greatest_total, table.grain) + cost_count + 1;
    table.cell_count = problem.cell_count;
    table.capacity.assign(at(problem.cell_count), 1);
    for (const double limit : problem.load_limits) {
        table.capacity.push_back(in_grains(std::min(limit, most_weight), weight_grain));
    }
    for (const Item& item : problem.items) add_item(table, item);
    return table;
}

void set_costs(ChoiceTable& table, std::span<const std::int64_t> cost) {
    std::int64_t greatest_total = 0;
    for (std::int32_t item = 0; item < table.item_count(); ++item) {
        std::int64_t greatest = 0;
        for (std::int32_t c = table.begin(item); c < table.left_over(item); ++c) {
            table.cost[at(c)] = cost[at(c)];
            greatest = std::max(greatest, cost[at(c)]);
        }
        greatest_total += greatest;
    }
    table.left_over_cost = std::max(table.left_over_cost, greatest_total + 1);
    for (std::int32_t item = 0; item < table.item_count(); ++item) {
        table.cost[at(table.left_over(item))] = table.left_over_cost;
    }
}

bool is_matching(const ChoiceTable& table) {
    for (std::int32_t choice = 0; choice < table.choice_count(); ++choice) {
        const auto uses = table.uses_of(choice);
        if (uses.size() > 1 && uses[1].resource < table.cell_count) return false;
    }
    return true;
}

std::int64_t total_cost(const ChoiceTable& table, std::span<const std::int32_t> choice_of_item) {
    std::int64_t total = 0;
    for (const std::int32_t choice : choice_of_item) {
        total += table.cost[at(choice)];
    }
    return total;
}

bool fits(const ChoiceTable& table, std::span<const std::int32_t> choice_of_item) {
    std::vector<std::int64_t> room = table.capacity;
    for (const std::int32_t choice : choice_of_item) {
        for (const auto& use : table.uses_of(choice)) {
            room[at(use.resource)] -= use.amount;
        }
    }
    return std::ranges::all_of(room, [](std::int64_t left) { return left >= 0; });
}

std::vector<double> mean_amounts(const ChoiceTable& table) {
    std::vector<double> sum(at(table.resource_count()), 0.0);
    std::vector<double> count(at(table.resource_count()), 0.0);
    for (const auto& use : table.uses) {
        sum[at(use.resource)] += static_cast<double>(use.amount);
        count[at(use.resource)] += 1.0;
    }
    for (std::size_t r = 0; r < sum.size(); ++r) {
        sum[r] = count[r] > 0.0 ? std::abs(sum[r]) / count[r] : 1.0;
    }
    return sum;
}

}  // namespace sunfleck::assign
