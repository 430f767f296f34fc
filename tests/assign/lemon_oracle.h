#pragma once

#include <cstdint>
#include <vector>

namespace sunfleck::assign::testing {

struct FlowArc {
    int item = 0;
    int cell = 0;
    std::int64_t cost = 0;
};

/// Least total cost of giving every item a cell of its own, by LEMON's network simplex; -1 where
/// not all can have one. Its own unit, in C++17: LEMON 1.3.1 uses what C++20 removed.
[[nodiscard]] std::int64_t least_cost_by_lemon(int item_count, int cell_count,
                                               const std::vector<FlowArc>& arcs);

}  // namespace sunfleck::assign::testing
