#pragma once

#include "choice_table.h"

#include <cstdint>
#include <functional>
#include <utility>
#include <vector>

namespace sunfleck::assign {

/// A whole plan of a table that always fits, and the local steps that make it cheaper. Every step
/// is in a fixed order and taken only where it saves whole grains, so it ends, the same each time.
class PlanPolish {
  public:
    /// Everything left over.
    explicit PlanPolish(const ChoiceTable& table);

    [[nodiscard]] const std::vector<std::int32_t>& choices() const { return choice_; }
    [[nodiscard]] std::int64_t cost() const { return cost_; }

    /// Choices looked at so far.
    [[nodiscard]] std::int64_t effort() const { return effort_; }

    /// Starts from a plan that fits.
    void start_from(const std::vector<std::int32_t>& choices);
    /// Builds a plan: the item that needs most room first, each on the choice with room that is
    /// cheapest by `worth` (cost with prices).
    void construct(const std::function<double(std::int32_t choice)>& worth);
    /// Looks at these choices alone, when it moves an item for that item's own good.
    void look_only_at(std::function<bool(std::int32_t choice)> is_worth_a_look) {
        is_worth_a_look_ = std::move(is_worth_a_look);
    }
    /// Single items to better choices, whoever stands in the way going elsewhere, and items of
    /// one width dealt anew among their windows and the free ones, until nothing helps or the
    /// effort is spent.
    void improve(std::int64_t most_effort);

  private:
    void put(std::int32_t item, std::int32_t choice);
    void take_out(std::int32_t item);
    [[nodiscard]] bool has_room(std::int32_t choice) const;
    [[nodiscard]] std::int32_t cheapest_with_room(std::int32_t item, std::int64_t limit);
    [[nodiscard]] std::int64_t most_gain(std::int32_t item) const {
        return table_.cost[at(choice_[at(item)])] - least_cost_[at(item)];
    }

    bool improve_by_ejection();
    bool improve_item(std::int32_t item);
    bool try_choice(std::int32_t item, std::int32_t choice);
    bool try_ejecting(std::int32_t item, std::int32_t choice, std::vector<std::int32_t>& ejected,
                      std::int64_t hope);
    bool put_with_gain(std::int32_t item, std::int32_t choice,
                       const std::vector<std::int32_t>& ejected, std::int64_t hope);
    [[nodiscard]] std::vector<std::int32_t> holders_in_the_way(std::int32_t item,
                                                               std::int32_t choice) const;
    [[nodiscard]] std::int32_t short_load(std::int32_t choice) const;
    bool improve_by_windows(std::size_t width);

    const ChoiceTable& table_;
    std::function<bool(std::int32_t)> is_worth_a_look_;
    std::vector<std::int32_t> choice_;
    std::vector<std::int64_t> room_;
    std::vector<std::int32_t> holder_;                      ///< per cell, or -1
    std::vector<std::int64_t> least_cost_;                  ///< per item, over all its choices
    std::vector<std::vector<std::int64_t>> least_without_;  ///< the same without one of the loads
    std::vector<std::int32_t> by_cost_;  ///< per item: its choices, cheapest first
    std::vector<std::int32_t> by_size_;  ///< items, those that need most cells first
    std::vector<std::size_t> width_;     ///< per item: most cells of a choice
    std::int64_t cost_ = 0;
    std::int64_t effort_ = 0;
    std::int64_t effort_limit_ = 0;
};

}  // namespace sunfleck::assign
