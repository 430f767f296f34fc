#pragma once

#include "choice_table.h"

#include <cstdint>
#include <span>
#include <vector>

namespace sunfleck::assign {

/// The choices still open at a point of a search, with undo in reverse order. Settling an item
/// takes its resources and closes every choice of the others that no longer fits.
class SearchSpace {
  public:
    explicit SearchSpace(const ChoiceTable& table);

    [[nodiscard]] const ChoiceTable& table() const { return table_; }
    /// Choices of the item still open, in no particular order; one once it is settled.
    [[nodiscard]] std::span<const std::int32_t> open(std::int32_t item) const {
        return std::span(order_).subspan(at(table_.begin(item)), at(open_count_[at(item)]));
    }
    [[nodiscard]] std::int32_t item_of(std::int32_t choice) const {
        return item_of_choice_[at(choice)];
    }
    [[nodiscard]] bool is_open(std::int32_t choice) const {
        const std::int32_t item = item_of_choice_[at(choice)];
        return place_[at(choice)] < table_.begin(item) + open_count_[at(item)];
    }
    [[nodiscard]] bool is_settled(std::int32_t item) const { return is_settled_[at(item)] != 0; }
    [[nodiscard]] std::int32_t unsettled_count() const { return unsettled_count_; }
    /// Capacity left by the settled items.
    [[nodiscard]] std::int64_t room(std::int32_t resource) const { return room_[at(resource)]; }
    [[nodiscard]] std::int64_t settled_cost() const { return settled_cost_; }
    /// True once some item has no choice left: nothing in this part of the search is a plan.
    [[nodiscard]] bool is_dead() const { return dead_count_ > 0; }

    void close(std::int32_t choice);
    void settle(std::int32_t choice);

    using Mark = std::size_t;
    [[nodiscard]] Mark mark() const { return trail_.size(); }
    void undo_to(Mark mark);

  private:
    struct Step {
        std::int32_t choice;
        bool is_settling;
    };

    void reopen(std::int32_t choice);
    void unsettle(std::int32_t choice);

    const ChoiceTable& table_;
    std::vector<std::int32_t> item_of_choice_;
    std::vector<std::int32_t> order_;  ///< per item: open choices, then closed ones
    std::vector<std::int32_t> place_;  ///< of a choice in order_
    std::vector<std::int32_t> open_count_;
    std::vector<char> is_settled_;
    std::vector<std::int64_t> room_;
    std::vector<std::int32_t> first_user_;  ///< per resource, one more at the end
    struct User {
        std::int32_t choice;
        std::int64_t amount;
    };
    std::vector<User> users_;
    std::vector<Step> trail_;
    std::int64_t settled_cost_ = 0;
    std::int32_t unsettled_count_ = 0;
    std::int32_t dead_count_ = 0;
};

}  // namespace sunfleck::assign
