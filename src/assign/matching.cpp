#include "matching.h"

#include "array_index.h"
#include "sunfleck/base/require.h"

#include <algorithm>
#include <functional>
#include <limits>
#include <queue>
#include <utility>
#include <vector>

namespace sunfleck::assign {
namespace {

constexpr std::int32_t none = -1;
constexpr std::int64_t unreached = std::numeric_limits<std::int64_t>::max();

/// Builds the matching row by row. The value of a column is minus its price, as in the paper.
class PathMatcher {
  public:
    explicit PathMatcher(const MatchingProblem& problem)
        : problem_(problem),
          value_(at(problem.column_count), 0),
          row_of_column_(at(problem.column_count), none),
          arc_of_row_(at(problem.row_count()), none),
          distance_(at(problem.column_count), unreached),
          place_(at(problem.column_count), 0),
          arc_into_(at(problem.column_count), none),
          row_into_(at(problem.column_count), none) {}

    Matching solve() {
        take_cheapest_free_columns();
        reduce_rows();
        for (const std::int32_t row : free_rows_) augment(row);
        for (std::int64_t& value : value_) value = -value;
        return {std::move(arc_of_row_), std::move(value_)};
    }

  private:
    struct TwoBest {
        std::int32_t arc = none;
        std::int64_t cost = unreached;
        std::int32_t second_arc = none;
        std::int64_t second_cost = unreached;
    };

    std::int32_t first(std::int32_t row) const { return problem_.first_arc[at(row)]; }
    std::int32_t last(std::int32_t row) const { return problem_.first_arc[at(row) + 1]; }
    std::int32_t column(std::int32_t arc) const { return problem_.column[at(arc)]; }
    std::int64_t reduced(std::int32_t arc) const {
        return problem_.cost[at(arc)] - value_[at(column(arc))];
    }

    void take(std::int32_t row, std::int32_t arc) {
        arc_of_row_[at(row)] = arc;
        row_of_column_[at(column(arc))] = row;
    }

    void take_cheapest_free_columns() {
        for (std::int32_t row = 0; row < problem_.row_count(); ++row) {
            SUNFLECK_REQUIRE(first(row) < last(row), "every row has an arc of its own");
            std::int32_t best = first(row);
            for (std::int32_t arc = best + 1; arc < last(row); ++arc) {
                if (problem_.cost[at(arc)] < problem_.cost[at(best)]) best = arc;
            }
            if (row_of_column_[at(column(best))] == none) {
                take(row, best);
            } else {
                free_rows_.push_back(row);
            }
        }
    }

    /// The two cheapest arcs of a row that lead to different columns.
    TwoBest two_best(std::int32_t row) const {
        TwoBest two;
        for (std::int32_t arc = first(row); arc < last(row); ++arc) {
            const std::int64_t cost = reduced(arc);
            if (cost >= two.second_cost) continue;
            if (two.arc != none && column(arc) == column(two.arc)) {
                if (cost < two.cost) {
                    two.arc = arc;
                    two.cost = cost;
                }
            } else if (cost < two.cost) {
                two.second_arc = std::exchange(two.arc, arc);
                two.second_cost = std::exchange(two.cost, cost);
            } else {
                two.second_arc = arc;
                two.second_cost = cost;
            }
        }
        return two;
    }

    /// Augmenting row reduction. The number of steps is capped: two rows that bid for one column
    /// in small steps would otherwise go on for as long as the costs are large.
    void reduce_rows() {
        std::size_t steps_left = 4 * free_rows_.size() + 16;
        for (int pass = 0; pass < 2; ++pass) {
            std::vector<std::int32_t> queue(free_rows_.rbegin(), free_rows_.rend());
            free_rows_.clear();
            while (!queue.empty() && steps_left > 0) {
                --steps_left;
                const std::int32_t row = queue.back();
                queue.pop_back();
                reduce_row(row, queue);
            }
            free_rows_.insert(free_rows_.end(), queue.rbegin(), queue.rend());
        }
    }

    void reduce_row(std::int32_t row, std::vector<std::int32_t>& queue) {
        const TwoBest two = two_best(row);
        std::int32_t arc = two.arc;
        const bool is_strict = two.second_arc != none && two.cost < two.second_cost;
        if (is_strict) {
            value_[at(column(arc))] -= two.second_cost - two.cost;
        } else if (row_of_column_[at(column(arc))] != none && two.second_arc != none) {
            arc = two.second_arc;
        }
        const std::int32_t displaced = row_of_column_[at(column(arc))];
        take(row, arc);
        if (displaced == none) return;
        arc_of_row_[at(displaced)] = none;
        (is_strict ? queue : free_rows_).push_back(displaced);
    }

    /// One shortest path from a free row to the nearest free column; then the values of the
    /// columns passed on the way and the matching along the path change.
    void augment(std::int32_t free_row) {
        touched_.clear();
        scanned_ = 0;
        ready_ = 0;
        std::int64_t least = 0;
        std::int32_t goal = relax(free_row, 0, least);
        while (goal == none) {
            if (scanned_ == ready_) {
                least = gather_nearest();
                goal = free_column_among_nearest();
                continue;
            }
            const std::int32_t via = touched_[scanned_++];
            goal = relax(row_of_column_[at(via)], offset_through(via, least), least);
        }
        for (std::size_t k = 0; k < scanned_; ++k) {
            value_[at(touched_[k])] += distance_[at(touched_[k])] - least;
        }
        flip_path(free_row, goal);
        for (const std::int32_t touched : touched_) distance_[at(touched)] = unreached;
    }

    /// What to add to a reduced cost of the row matched to `via` to get a distance.
    std::int64_t offset_through(std::int32_t via, std::int64_t least) const {
        return least - reduced(arc_of_row_[at(row_of_column_[at(via)])]);
    }

    /// Updates the distances over one row; the free column found at the least distance, or none.
    /// touched_ holds scanned columns, then those ready at the least distance, then the others.
    std::int32_t relax(std::int32_t row, std::int64_t offset, std::int64_t least) {
        const bool is_start = ready_ == 0;
        for (std::int32_t arc = first(row); arc < last(row); ++arc) {
            const std::int32_t target = column(arc);
            const std::int64_t distance = reduced(arc) + offset;
            std::int64_t& known = distance_[at(target)];
            if (distance >= known) continue;
            if (known == unreached) {
                place_[at(target)] = touched_.size();
                touched_.push_back(target);
            }
            known = distance;
            arc_into_[at(target)] = arc;
            row_into_[at(target)] = row;
            if (is_start || distance > least) continue;
            if (row_of_column_[at(target)] == none) return target;
            swap_touched(place_[at(target)], ready_++);
        }
        return none;
    }

    /// Brings all columns at the least distance not yet scanned to the front of the rest.
    std::int64_t gather_nearest() {
        SUNFLECK_REQUIRE(ready_ < touched_.size(), "every row reaches a column of its own");
        std::int64_t least = unreached;
        for (std::size_t k = ready_; k < touched_.size(); ++k) {
            const std::int64_t distance = distance_[at(touched_[k])];
            if (distance > least) continue;
            if (distance < least) ready_ = scanned_;
            least = distance;
            swap_touched(k, ready_++);
        }
        return least;
    }

    void swap_touched(std::size_t a, std::size_t b) {
        std::swap(touched_[a], touched_[b]);
        place_[at(touched_[a])] = a;
        place_[at(touched_[b])] = b;
    }

    std::int32_t free_column_among_nearest() const {
        for (std::size_t k = scanned_; k < ready_; ++k) {
            if (row_of_column_[at(touched_[k])] == none) return touched_[k];
        }
        return none;
    }

    void flip_path(std::int32_t free_row, std::int32_t goal) {
        std::int32_t row = none;
        while (row != free_row) {
            row = row_into_[at(goal)];
            const std::int32_t arc = arc_into_[at(goal)];
            const std::int32_t left = arc_of_row_[at(row)];
            take(row, arc);
            if (left != none) goal = column(left);
        }
    }

    const MatchingProblem& problem_;
    std::vector<std::int64_t> value_;
    std::vector<std::int32_t> row_of_column_;
    std::vector<std::int32_t> arc_of_row_;
    std::vector<std::int32_t> free_rows_;
    // One search:
    std::vector<std::int64_t> distance_;
    std::vector<std::size_t> place_;  ///< of a column in touched_
    std::vector<std::int32_t> arc_into_;
    std::vector<std::int32_t> row_into_;
    std::vector<std::int32_t> touched_;
    std::size_t scanned_ = 0;
    std::size_t ready_ = 0;
};

/// Lowers all prices as far as the proof allows: what remains is the least price of each column
/// that proves the matching, whichever way it was found. If row r holds column j, column k may
/// fall by at most what j falls plus the slack of arc (r, k): shortest paths, where a column's own
/// price is the way from the start.
class LeastPrices {
  public:
    LeastPrices(const MatchingProblem& problem, const std::vector<std::int32_t>& arc_of_row)
        : problem_(problem), row_of_column_(at(problem.column_count), none), arcs_(arc_of_row) {
        for (std::int32_t row = 0; row < problem.row_count(); ++row) {
            row_of_column_[at(problem.column[at(arc_of_row[at(row)])])] = row;
        }
    }

    void lower(std::vector<std::int64_t>& price) {
        std::vector<std::int64_t> fall = price;
        using Entry = std::pair<std::int64_t, std::int32_t>;
        std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue;
        for (std::int32_t column = 0; column < problem_.column_count; ++column) {
            if (row_of_column_[at(column)] != none) queue.emplace(fall[at(column)], column);
        }
        while (!queue.empty()) {
            const auto [distance, column] = queue.top();
            queue.pop();
            if (distance > fall[at(column)]) continue;
            const std::int32_t row = row_of_column_[at(column)];
            const std::int64_t held = problem_.cost[at(arcs_[at(row)])] + price[at(column)];
            for (std::int32_t arc = problem_.first_arc[at(row)];
                 arc < problem_.first_arc[at(row) + 1]; ++arc) {
                const std::int32_t other = problem_.column[at(arc)];
                if (fall[at(other)] <= distance || row_of_column_[at(other)] == none) continue;
                const std::int64_t slack = problem_.cost[at(arc)] + price[at(other)] - held;
                if (distance + slack >= fall[at(other)]) continue;
                fall[at(other)] = distance + slack;
                queue.emplace(fall[at(other)], other);
            }
        }
        for (std::size_t column = 0; column < price.size(); ++column) {
            price[column] -= fall[column];
        }
    }

  private:
    const MatchingProblem& problem_;
    std::vector<std::int32_t> row_of_column_;
    const std::vector<std::int32_t>& arcs_;
};

/// Of all least-cost matchings, finds the first in the order of rows and arcs. By complementary
/// slackness the least-cost matchings are those of tight arcs (least cost plus price of their
/// row) that cover every column with a price.
class EarliestMatching {
  public:
    EarliestMatching(const MatchingProblem& problem, Matching matching)
        : problem_(problem),
          matching_(std::move(matching)),
          row_of_column_(at(problem.column_count), none),
          detour_(at(problem.column_count), none) {
        for (std::int32_t row = 0; row < problem_.row_count(); ++row) {
            row_of_column_[at(column_of(row))] = row;
        }
    }

    Matching solve() {
        if (!gather_tight_arcs()) return std::move(matching_);
        for (std::int32_t row = 0; row < problem_.row_count(); ++row) {
            if (first_tight(row) != matching_.arc_of_row[at(row)]) improve(row);
        }
        return std::move(matching_);
    }

  private:
    struct TightArc {
        std::int32_t row;
        std::int32_t arc;
    };

    std::int32_t column_of(std::int32_t row) const {
        return problem_.column[at(matching_.arc_of_row[at(row)])];
    }
    std::int64_t priced(std::int32_t arc) const {
        return problem_.cost[at(arc)] + matching_.column_price[at(problem_.column[at(arc)])];
    }
    std::int32_t first_tight(std::int32_t row) const {
        return tight_[at(first_tight_[at(row)])].arc;
    }

    /// True where some row has a tight arc before its present one.
    bool gather_tight_arcs() {
        bool is_open = false;
        for (std::int32_t row = 0; row < problem_.row_count(); ++row) {
            first_tight_.push_back(static_cast<std::int32_t>(tight_.size()));
            const std::int32_t present = matching_.arc_of_row[at(row)];
            const std::int64_t least = priced(present);
            for (std::int32_t arc = problem_.first_arc[at(row)];
                 arc < problem_.first_arc[at(row) + 1]; ++arc) {
                if (priced(arc) == least) tight_.push_back({row, arc});
            }
            is_open = is_open || first_tight(row) != present;
        }
        first_tight_.push_back(static_cast<std::int32_t>(tight_.size()));
        if (is_open) index_by_column();
        return is_open;
    }

    void index_by_column() {
        first_in_column_.assign(at(problem_.column_count) + 1, 0);
        for (const TightArc& tight : tight_) {
            ++first_in_column_[at(problem_.column[at(tight.arc)]) + 1];
        }
        for (std::size_t c = 1; c < first_in_column_.size(); ++c) {
            first_in_column_[c] += first_in_column_[c - 1];
        }
        by_column_.resize(tight_.size());
        std::vector<std::int32_t> next = first_in_column_;
        for (const TightArc& tight : tight_) {
            by_column_[at(next[at(problem_.column[at(tight.arc)])]++)] = tight;
        }
    }

    /// Gives the row the earliest tight arc that the rows after it can make room for.
    void improve(std::int32_t row) {
        find_detours(row);
        for (std::int32_t k = first_tight_[at(row)]; k < first_tight_[at(row) + 1]; ++k) {
            const std::int32_t arc = tight_[at(k)].arc;
            if (arc == matching_.arc_of_row[at(row)]) break;
            if (is_open(problem_.column[at(arc)], row)) {
                reroute(row, arc);
                break;
            }
        }
        for (const std::int32_t column : reached_) detour_[at(column)] = none;
    }

    bool is_open(std::int32_t column, std::int32_t row) const {
        const std::int32_t holder = row_of_column_[at(column)];
        if (holder == row || detour_[at(column)] != none) return true;
        return holder == none && vacant_ != none;
    }

    /// Searches back from the row's present column, where a chain of displaced rows ends: detour_
    /// tells the arc by which the holder of a column gets out. As soon as a column without a price
    /// is reached, it may stay vacant, and the chain may go through any free column instead. Ends
    /// early once the earliest hope is open.
    void find_detours(std::int32_t row) {
        reached_.assign(1, column_of(row));
        vacant_ = none;
        const std::int32_t wanted = first_hope(row);
        for (std::size_t k = 0; k < reached_.size() && !is_open(wanted, row); ++k) {
            if (vacant_ == none && matching_.column_price[at(reached_[k])] == 0) {
                vacant_ = reached_[k];
                reach_free_columns();
            }
            reach_holders(reached_[k], row);
        }
    }

    /// The column of the row's earliest tight arc that no row before it holds.
    std::int32_t first_hope(std::int32_t row) const {
        for (std::int32_t k = first_tight_[at(row)];; ++k) {
            const std::int32_t column = problem_.column[at(tight_[at(k)].arc)];
            if (row_of_column_[at(column)] == none || row_of_column_[at(column)] >= row) {
                return column;
            }
        }
    }

    void reach_free_columns() {
        for (std::int32_t column = 0; column < problem_.column_count; ++column) {
            if (row_of_column_[at(column)] == none) reached_.push_back(column);
        }
    }

    void reach_holders(std::int32_t target, std::int32_t row) {
        for (std::int32_t t = first_in_column_[at(target)]; t < first_in_column_[at(target) + 1];
             ++t) {
            const TightArc& tight = by_column_[at(t)];
            const std::int32_t column = column_of(tight.row);
            if (tight.row <= row || column == target || detour_[at(column)] != none) continue;
            detour_[at(column)] = tight.arc;
            reached_.push_back(column);
        }
    }

    void reroute(std::int32_t row, std::int32_t arc) {
        const std::int32_t vacated = column_of(row);
        row_of_column_[at(vacated)] = none;
        while (row != none) {
            std::int32_t column = problem_.column[at(arc)];
            std::int32_t displaced = std::exchange(row_of_column_[at(column)], row);
            matching_.arc_of_row[at(row)] = arc;
            if (displaced == none && column != vacated && vacant_ != vacated) {
                column = vacant_;
                displaced = std::exchange(row_of_column_[at(column)], none);
            }
            row = displaced;
            arc = detour_[at(column)];
        }
    }

    const MatchingProblem& problem_;
    Matching matching_;
    std::vector<std::int32_t> row_of_column_;
    std::vector<TightArc> tight_;  ///< by row, then arc
    std::vector<std::int32_t> first_tight_;
    std::vector<TightArc> by_column_;
    std::vector<std::int32_t> first_in_column_;
    std::vector<std::int32_t> detour_;
    std::vector<std::int32_t> reached_;
    std::int32_t vacant_ = none;  ///< a reached column that may stay vacant
};

}  // namespace

Matching least_cost_matching(const MatchingProblem& problem) {
    Matching matching = PathMatcher(problem).solve();
    LeastPrices(problem, matching.arc_of_row).lower(matching.column_price);
    return EarliestMatching(problem, std::move(matching)).solve();
}

}  // namespace sunfleck::assign
