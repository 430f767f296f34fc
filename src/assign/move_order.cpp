#include "sunfleck/assign/move_order.h"

#include "array_index.h"
#include "sunfleck/base/require.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <map>
#include <tuple>
#include <utility>

namespace sunfleck::assign {
namespace {

using CarryList = std::vector<std::int32_t>;

// So many sets to put aside are tried before a greedy one is taken.
constexpr std::uint64_t most_tried = 100'000;

/// Who waits for whom: carry a waits for b where b stands on a cell that a goes to.
class WaitGraph {
  public:
    explicit WaitGraph(std::span<const Carry> carries)
        : waits_for_(carries.size()), awaited_by_(carries.size()) {
        std::map<std::int32_t, std::int32_t> stands_on;
        std::map<std::int32_t, std::int32_t> goes_to;
        for (std::size_t c = 0; c < carries.size(); ++c) {
            const auto carry = static_cast<std::int32_t>(c);
            for (const std::int32_t cell : carries[c].from_cells) {
                SUNFLECK_REQUIRE(stands_on.emplace(cell, carry).second,
                                 "no two carries come from one cell");
            }
            for (const std::int32_t cell : carries[c].to_cells) {
                SUNFLECK_REQUIRE(goes_to.emplace(cell, carry).second,
                                 "no two carries go to one cell");
            }
        }
        for (const auto& [cell, carry] : goes_to) {
            const auto holder = stands_on.find(cell);
            if (holder == stands_on.end() || holder->second == carry) continue;
            add(carry, holder->second);
        }
    }

    const CarryList& waits_for(std::int32_t carry) const { return waits_for_[at(carry)]; }

    /// Carries that wait for each other in whatever direction, each list ascending.
    std::vector<CarryList> groups() const {
        std::vector<CarryList> groups;
        std::vector<bool> is_seen(waits_for_.size(), false);
        for (std::size_t c = 0; c < waits_for_.size(); ++c) {
            if (is_seen[c]) continue;
            CarryList group{static_cast<std::int32_t>(c)};
            is_seen[c] = true;
            for (std::size_t k = 0; k < group.size(); ++k) {
                for (const CarryList* list :
                     {&waits_for_[at(group[k])], &awaited_by_[at(group[k])]}) {
                    for (const std::int32_t other : *list) {
                        if (!is_seen[at(other)]) group.push_back(other);
                        is_seen[at(other)] = true;
                    }
                }
            }
            std::ranges::sort(group);
            groups.push_back(std::move(group));
        }
        return groups;
    }

  private:
    void add(std::int32_t carry, std::int32_t holder) {
        CarryList& list = waits_for_[at(carry)];
        if (std::ranges::find(list, holder) != list.end()) return;
        list.push_back(holder);
        awaited_by_[at(holder)].push_back(carry);
    }

    std::vector<CarryList> waits_for_;
    std::vector<CarryList> awaited_by_;
};

/// One group's carries, in what state each is, and the steps so far.
class GroupOrder {
  public:
    GroupOrder(std::span<const Carry> carries, const WaitGraph& graph, CarryList group)
        : carries_(carries), graph_(graph), group_(std::move(group)) {
        std::ranges::sort(group_);
    }

    CarryGroup solve() {
        const CarryList aside = fewest_aside();
        CarryGroup ordered;
        if (!aside.empty()) {
            ordered.kind = group_.size() == 2 ? CarryGroupKind::swap : CarryGroupKind::ring;
        }
        CarryList pending = group_;
        CarryList on_ground;
        while (!pending.empty() || !on_ground.empty()) {
            const OrderedCarry step = next_step(pending, on_ground, aside);
            if (step.step == CarryStep::put_down) {
                std::erase(on_ground, step.carry);
            } else {
                std::erase(pending, step.carry);
                if (step.step == CarryStep::set_aside) on_ground.push_back(step.carry);
            }
            ordered.steps.push_back(step);
        }
        return ordered;
    }

  private:
    bool is_clear(std::int32_t carry, const CarryList& pending) const {
        return std::ranges::none_of(graph_.waits_for(carry), [&](std::int32_t other) {
            return std::ranges::binary_search(pending, other);
        });
    }

    OrderedCarry next_step(const CarryList& pending, const CarryList& on_ground,
                           const CarryList& aside) const {
        for (const std::int32_t carry : on_ground) {
            if (is_clear(carry, pending)) return {carry, CarryStep::put_down};
        }
        for (const std::int32_t carry : pending) {
            if (is_clear(carry, pending)) return {carry, CarryStep::move};
        }
        for (const std::int32_t carry : aside) {
            if (std::ranges::binary_search(pending, carry) && frees_another(carry, pending)) {
                return {carry, CarryStep::set_aside};
            }
        }
        for (const std::int32_t carry : aside) {
            if (std::ranges::binary_search(pending, carry)) return {carry, CarryStep::set_aside};
        }
        SUNFLECK_REQUIRE(false, "what is put aside unties every knot");
        return {};
    }

    bool frees_another(std::int32_t carry, CarryList pending) const {
        std::erase(pending, carry);
        return std::ranges::any_of(pending,
                                   [&](std::int32_t other) { return is_clear(other, pending); });
    }

    /// What is left once all that can go, with these out of the way, has gone.
    CarryList knot_without(const CarryList& aside) const {
        CarryList pending;
        std::ranges::set_difference(group_, aside, std::back_inserter(pending));
        while (true) {
            CarryList stuck;
            for (const std::int32_t carry : pending) {
                if (!is_clear(carry, pending)) stuck.push_back(carry);
            }
            if (stuck.size() == pending.size()) return pending;
            pending = std::move(stuck);
        }
    }

    std::int64_t weight(const CarryList& aside) const {
        double sum = 0.0;
        for (const std::int32_t carry : aside) sum += carries_[at(carry)].weight;
        return std::llround(sum * 1e6);
    }

    /// The fewest carries to put aside, then the lightest, then the earliest.
    CarryList fewest_aside() const {
        const CarryList knot = knot_without({});
        if (knot.empty()) return {};
        std::uint64_t sets = 1;
        for (std::size_t size = 1; size <= knot.size(); ++size) {
            sets = sets * (knot.size() - size + 1) / size;
            if (sets > most_tried) break;
            CarryList best;
            CarryList chosen;
            try_sets(knot, 0, size, chosen, best);
            if (!best.empty()) return best;
        }
        return greedy_aside();
    }

    void try_sets(const CarryList& knot, std::size_t from, std::size_t size, CarryList& chosen,
                  CarryList& best) const {
        if (chosen.size() == size) {
            if (!best.empty() && weight(chosen) >= weight(best)) return;
            if (knot_without(chosen).empty()) best = chosen;
            return;
        }
        for (std::size_t k = from; k < knot.size(); ++k) {
            chosen.push_back(knot[k]);
            try_sets(knot, k + 1, size, chosen, best);
            chosen.pop_back();
        }
    }

    /// One after the other, each time the carry that leaves the smallest knot.
    CarryList greedy_aside() const {
        CarryList aside;
        for (CarryList knot = knot_without({}); !knot.empty(); knot = knot_without(aside)) {
            std::tuple<std::size_t, std::int64_t, std::int32_t> best{knot.size(), 0, knot[0]};
            for (const std::int32_t carry : knot) {
                CarryList with = aside;
                with.insert(std::ranges::upper_bound(with, carry), carry);
                best = std::min(best, {knot_without(with).size(), weight({carry}), carry});
            }
            const std::int32_t carry = std::get<2>(best);
            aside.insert(std::ranges::upper_bound(aside, carry), carry);
        }
        return aside;
    }

    std::span<const Carry> carries_;
    const WaitGraph& graph_;
    CarryList group_;
};

}  // namespace

std::vector<CarryGroup> move_order(std::span<const Carry> carries) {
    const WaitGraph graph(carries);
    std::vector<CarryGroup> groups;
    for (CarryList& group : graph.groups()) {
        groups.push_back(GroupOrder(carries, graph, std::move(group)).solve());
    }
    std::ranges::stable_sort(groups, {}, &CarryGroup::kind);
    return groups;
}

}  // namespace sunfleck::assign
