#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace sunfleck::assign {

/// Rows that each need one column of their own, at the least total cost: the rectangular linear
/// assignment problem with absent arcs truly absent.
struct MatchingProblem {
    std::span<const std::int32_t> first_arc;  ///< per row, one more at the end
    std::span<const std::int32_t> column;     ///< per arc
    std::span<const std::int64_t> cost;       ///< per arc
    std::int32_t column_count = 0;

    [[nodiscard]] std::int32_t row_count() const {
        return static_cast<std::int32_t>(first_arc.size()) - 1;
    }
};

struct Matching {
    std::vector<std::int32_t> arc_of_row;
    /// >= 0, 0 on columns left free; the smallest prices that prove the matching, so that they do
    /// not depend on how it was found.
    std::vector<std::int64_t> column_price;
};

/// The least-cost matching of all rows; of several, the one whose first row has its earliest arc,
/// then its second row, and so on. The prices prove it: the sum over rows of the least cost plus
/// price, less the sum of all prices, is the cost of the matching.
///
/// Every row must have a column that no other row can take (being left over), so that a matching
/// exists. Shortest augmenting paths after Jonker and Volgenant, Computing 38 (1987) 325-340:
/// augmenting row reduction, then one path per row still free. Their column reduction is left
/// out, because a price on a column that stays free would break the proof (Volgenant, Computers &
/// Operations Research 23 (1996) 917-932, on the rectangular case).
[[nodiscard]] Matching least_cost_matching(const MatchingProblem& problem);

}  // namespace sunfleck::assign
