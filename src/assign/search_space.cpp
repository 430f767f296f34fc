#include "search_space.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace sunfleck::assign {

SearchSpace::SearchSpace(const ChoiceTable& table)
    : table_(table),
      item_of_choice_(table.cost.size()),
      order_(table.cost.size()),
      place_(table.cost.size()),
      is_settled_(at(table.item_count()), 0),
      room_(table.capacity),
      first_user_(at(table.resource_count()) + 1, 0),
      users_(table.uses.size()),
      unsettled_count_(table.item_count()) {
    std::iota(order_.begin(), order_.end(), 0);
    std::iota(place_.begin(), place_.end(), 0);
    for (std::int32_t item = 0; item < table.item_count(); ++item) {
        open_count_.push_back(table.end(item) - table.begin(item));
        for (std::int32_t c = table.begin(item); c < table.end(item); ++c) {
            item_of_choice_[at(c)] = item;
        }
    }
    for (const auto& use : table.uses) ++first_user_[at(use.resource) + 1];
    std::partial_sum(first_user_.begin(), first_user_.end(), first_user_.begin());
    std::vector<std::int32_t> next = first_user_;
    for (std::int32_t c = 0; c < table.choice_count(); ++c) {
        for (const auto& use : table.uses_of(c)) {
            users_[at(next[at(use.resource)]++)] = {c, use.amount};
        }
    }
}

void SearchSpace::close(std::int32_t choice) {
    if (!is_open(choice)) return;
    const std::int32_t item = item_of_choice_[at(choice)];
    const std::int32_t last = table_.begin(item) + --open_count_[at(item)];
    const std::int32_t from = place_[at(choice)];
    std::swap(order_[at(from)], order_[at(last)]);
    place_[at(order_[at(from)])] = from;
    place_[at(choice)] = last;
    if (open_count_[at(item)] == 0) ++dead_count_;
    trail_.push_back({choice, false});
}

void SearchSpace::reopen(std::int32_t choice) {
    const std::int32_t item = item_of_choice_[at(choice)];
    if (open_count_[at(item)]++ == 0) --dead_count_;
}

void SearchSpace::settle(std::int32_t choice) {
    const std::int32_t item = item_of_choice_[at(choice)];
    while (open_count_[at(item)] > 1) {
        const auto others = open(item);
        close(others.back() == choice ? others.front() : others.back());
    }
    is_settled_[at(item)] = 1;
    --unsettled_count_;
    settled_cost_ += table_.cost[at(choice)];
    trail_.push_back({choice, true});
    for (const auto& use : table_.uses_of(choice)) room_[at(use.resource)] -= use.amount;
    for (const auto& use : table_.uses_of(choice)) {
        for (std::int32_t u = first_user_[at(use.resource)]; u < first_user_[at(use.resource) + 1];
             ++u) {
            const User& user = users_[at(u)];
            if (user.amount > 0 && user.amount > room(use.resource) &&
                is_settled_[at(item_of_choice_[at(user.choice)])] == 0) {
                close(user.choice);
            }
        }
    }
}

void SearchSpace::unsettle(std::int32_t choice) {
    is_settled_[at(item_of_choice_[at(choice)])] = 0;
    ++unsettled_count_;
    settled_cost_ -= table_.cost[at(choice)];
    for (const auto& use : table_.uses_of(choice)) room_[at(use.resource)] += use.amount;
}

void SearchSpace::undo_to(Mark mark) {
    while (trail_.size() > mark) {
        const Step step = trail_.back();
        trail_.pop_back();
        if (step.is_settling) {
            unsettle(step.choice);
        } else {
            reopen(step.choice);
        }
    }
}

}  // namespace sunfleck::assign
