#pragma once

#include <cstdint>
#include <span>
#include <vector>

/// In which order things are carried from cells to cells, so that nothing waits longer than needed.
namespace sunfleck::assign {

/// One item that goes from the cells it covers to others (they may overlap).
struct Carry {
    std::vector<std::int32_t> from_cells;  ///< ascending; empty where it comes from outside
    std::vector<std::int32_t> to_cells;    ///< ascending; empty where it leaves
    double weight = 0.0;                   ///< of two that may be set aside the lighter is
};

enum class CarryStep {
    move,       ///< straight from where it stands to where it goes
    set_aside,  ///< lifted out of the way, for the moment
    put_down,   ///< from where it was set aside to where it goes
};

enum class CarryGroupKind {
    swap,  ///< two items change places: one is set aside meanwhile
    ring,  ///< more items change places in a ring, or wide ones in each other's way: some set aside
    chain,  ///< one item after the other into the place just left, from the free end; or one alone
};

struct OrderedCarry {
    std::int32_t carry = 0;  ///< index of the carry
    CarryStep step = CarryStep::move;
};

/// Carries that wait for each other. Groups do not touch each other and can be done in any order.
struct CarryGroup {
    CarryGroupKind kind = CarryGroupKind::chain;
    std::vector<OrderedCarry> steps;
};

/// Every carry in an order in which its cells are free when it comes: swaps first, then rings,
/// then chains, each by its earliest carry. As few as possible are set aside (of those choices the
/// lightest together, then the earliest), as late as possible, and put down as soon as their cells
/// are free. In a knot with more than 100 000 sets of that size the number set aside
/// is small, not proved fewest; rings of single cells always need one.
///
/// The cells must be those of two plans: no two carries share a cell they come from, nor a cell
/// they go to, and no item that stays is on any cell they go to.
[[nodiscard]] std::vector<CarryGroup> move_order(std::span<const Carry> carries);

}  // namespace sunfleck::assign
