#pragma once

#include "sunfleck/assign/period_plan.h"

#include <cstdint>
#include <random>
#include <utility>
#include <vector>

/// Seeded period problems and every plan of the small ones, for the tests of the module.
namespace sunfleck::assign::testing {

/// Numbers from the generator's bits alone, the same with every library.
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : bits_(seed) {}
    /// In [0, 1), a multiple of 2^-53.
    [[nodiscard]] double unit() { return static_cast<double>(bits_() >> 11) * 0x1.0p-53; }
    /// In [0, count).
    [[nodiscard]] std::int32_t below(std::int32_t count) {
        return static_cast<std::int32_t>(unit() * count);
    }
    [[nodiscard]] bool chance(double probability) { return unit() < probability; }

  private:
    std::mt19937_64 bits_;
};

/// What a random period is made of.
struct PeriodKind {
    std::int32_t items = 4;
    std::int32_t cells = 6;
    std::int32_t widest = 1;       ///< cells of the widest item, from 1
    double absent = 0.0;           ///< share of choices that are missing
    std::int32_t load_limits = 0;  ///< cells are dealt to that many limits in turn
    double load_share = 1.0;       ///< limit as a share of the weight that would fall on it evenly
    std::int32_t distinct_costs = 0;  ///< costs are whole numbers below this; 0: any number
};

[[nodiscard]] inline PeriodProblem random_period(const PeriodKind& kind, std::uint64_t seed) {
    Dice dice(seed);
    PeriodProblem problem;
    problem.cell_count = kind.cells;
    double weight = 0.0;
    for (std::int32_t i = 0; i < kind.items; ++i) {
        Item item;
        item.weight = 0.1 * (1 + dice.below(50));
        weight += item.weight;
        const std::int32_t width = 1 + dice.below(kind.widest);
        for (std::int32_t first = 0; first + width <= kind.cells; ++first) {
            Choice choice;
            choice.cost =
                kind.distinct_costs > 0 ? dice.below(kind.distinct_costs) : 10.0 * dice.unit();
            for (std::int32_t k = 0; k < width; ++k) choice.cells.push_back(first + k);
            if (kind.load_limits > 0) choice.load = first * kind.load_limits / kind.cells;
            if (!dice.chance(kind.absent)) item.choices.push_back(std::move(choice));
        }
        problem.items.push_back(std::move(item));
    }
    for (std::int32_t l = 0; l < kind.load_limits; ++l) {
        problem.load_limits.push_back(kind.load_share * weight / kind.load_limits);
    }
    return problem;
}

/// The best of all plans, found by trying each.
struct BestOfAll {
    std::vector<std::int32_t> choice_of_item;
    std::size_t left_over = 0;
    double cost = 0.0;
};

class EveryPlan {
  public:
    explicit EveryPlan(const PeriodProblem& problem)
        : problem_(problem),
          taken_(static_cast<std::size_t>(problem.cell_count), false),
          load_(problem.load_limits.size(), 0.0) {}

    [[nodiscard]] BestOfAll best() {
        best_.left_over = problem_.items.size() + 1;
        place(0, 0, 0.0);
        return best_;
    }

  private:
    void place(std::size_t i, std::size_t left_over, double cost) {
        if (left_over > best_.left_over) return;
        if (i == problem_.items.size()) return keep_if_better(left_over, cost);
        const Item& item = problem_.items[i];
        for (std::size_t c = 0; c < item.choices.size(); ++c) {
            const Choice& choice = item.choices[c];
            if (!has_room(choice, item.weight)) continue;
            occupy(choice, item.weight, true);
            chosen_.push_back(static_cast<std::int32_t>(c));
            place(i + 1, left_over, cost + choice.cost);
            chosen_.pop_back();
            occupy(choice, item.weight, false);
        }
        chosen_.push_back(-1);
        place(i + 1, left_over + 1, cost);
        chosen_.pop_back();
    }

    [[nodiscard]] bool has_room(const Choice& choice, double weight) const {
        for (const auto cell : choice.cells) {
            if (taken_[static_cast<std::size_t>(cell)]) return false;
        }
        const auto load = static_cast<std::size_t>(choice.load);
        return choice.load < 0 || load_[load] + weight <= problem_.load_limits[load] + 1e-9;
    }

    void occupy(const Choice& choice, double weight, bool is_taken) {
        for (const auto cell : choice.cells) taken_[static_cast<std::size_t>(cell)] = is_taken;
        if (choice.load < 0) return;
        load_[static_cast<std::size_t>(choice.load)] += is_taken ? weight : -weight;
    }

    void keep_if_better(std::size_t left_over, double cost) {
        if (left_over == best_.left_over && cost > best_.cost - 1e-9) return;
        best_ = {chosen_, left_over, cost};
    }

    const PeriodProblem& problem_;
    std::vector<bool> taken_;
    std::vector<double> load_;
    std::vector<std::int32_t> chosen_;
    BestOfAll best_;
};

/// True where every cell holds one item, every load its limit, and the cost is the sum.
[[nodiscard]] inline bool is_sound(const PeriodProblem& problem, const PeriodPlan& plan) {
    std::vector<int> holders(static_cast<std::size_t>(problem.cell_count), 0);
    std::vector<double> load(problem.load_limits.size(), 0.0);
    std::vector<std::int32_t> unplaced;
    double cost = 0.0;
    if (plan.choice_of_item.size() != problem.items.size()) return false;
    for (std::size_t i = 0; i < problem.items.size(); ++i) {
        const std::int32_t c = plan.choice_of_item[i];
        if (c < 0) {
            unplaced.push_back(static_cast<std::int32_t>(i));
            continue;
        }
        const Choice& choice = problem.items[i].choices.at(static_cast<std::size_t>(c));
        cost += choice.cost;
        for (const auto cell : choice.cells) ++holders[static_cast<std::size_t>(cell)];
        if (choice.load >= 0)
            load[static_cast<std::size_t>(choice.load)] += problem.items[i].weight;
    }
    for (const int count : holders) {
        if (count > 1) return false;
    }
    for (std::size_t l = 0; l < load.size(); ++l) {
        if (load[l] > problem.load_limits[l] + 1e-5) return false;
    }
    return unplaced == plan.unplaced && plan.is_feasible == unplaced.empty() &&
           std::abs(cost - plan.cost) < 1e-9;
}

}  // namespace sunfleck::assign::testing
