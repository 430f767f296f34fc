#pragma once

#include "choice_table.h"
#include "matching.h"

#include <cstdint>
#include <functional>
#include <vector>

namespace sunfleck::assign {

/// A table whose choices cover at most one cell each, with prices on its other resources only:
/// the cells stay an assignment problem, solved exactly. This gives better prices in far fewer
/// steps than pricing the cells by steps too.
class MatchingStart {
  public:
    explicit MatchingStart(const ChoiceTable& table);

    struct Point {
        std::vector<double> price;  ///< of every resource, grains per mean amount
        std::vector<std::int32_t> choices;
        std::vector<double> overdraft;  ///< of every other resource: demand less capacity
        double bound = 0.0;             ///< grains
    };

    /// The least-cost plan where the other resources cost `other_price` (grains per mean amount).
    [[nodiscard]] Point at_prices(std::vector<double> other_price);

    /// Climbs to the highest bound: exactly where one other resource binds, by Polyak steps
    /// towards the cost that `offer` answers otherwise. `offer` is shown every point and answers
    /// the cost of the best plan known.
    [[nodiscard]] Point climb(const std::function<double(const Point&)>& offer, int most_points);

  private:
    void weigh(Point& point) const;
    [[nodiscard]] Point climb_line(const Point& start, std::size_t bound_by,
                                   const std::function<double(const Point&)>& offer,
                                   int most_points);
    [[nodiscard]] Point climb_steps(Point start, const std::function<double(const Point&)>& offer,
                                    int most_points);

    [[nodiscard]] double share(const ChoiceTable::Use& use) const {
        return static_cast<double>(use.amount) / scale_[at(use.resource)];
    }
    [[nodiscard]] std::size_t other(const ChoiceTable::Use& use) const {
        return at(use.resource - table_.cell_count);
    }

    const ChoiceTable& table_;
    std::vector<double> scale_;
    std::vector<std::int32_t> column_;
    std::vector<std::int64_t> cost_;
};

}  // namespace sunfleck::assign
