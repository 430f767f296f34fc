#include "matching_start.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace sunfleck::assign {
namespace {

/// Column of a choice: its cell, or the item's own column behind the cells where it covers none.
std::vector<std::int32_t> columns(const ChoiceTable& table) {
    std::vector<std::int32_t> column(table.cost.size());
    for (std::int32_t item = 0; item < table.item_count(); ++item) {
        for (std::int32_t c = table.begin(item); c < table.end(item); ++c) {
            const auto uses = table.uses_of(c);
            const bool has_cell = !uses.empty() && uses[0].resource < table.cell_count;
            column[at(c)] = has_cell ? uses[0].resource : table.cell_count + item;
        }
    }
    return column;
}

}  // namespace

MatchingStart::MatchingStart(const ChoiceTable& table)
    : table_(table),
      scale_(mean_amounts(table)),
      column_(columns(table)),
      cost_(table.cost.size()) {}

MatchingStart::Point MatchingStart::at_prices(std::vector<double> other_price) {
    for (std::int32_t c = 0; c < table_.choice_count(); ++c) {
        double extra = 0.0;
        for (const auto& use : table_.uses_of(c)) {
            if (use.resource >= table_.cell_count) extra += other_price[other(use)] * share(use);
        }
        cost_[at(c)] = table_.cost[at(c)] + std::llround(extra);
    }
    Matching matching = least_cost_matching(
        {table_.first_choice, column_, cost_, table_.cell_count + table_.item_count()});
    Point point;
    point.price.assign(matching.column_price.begin(),
                       matching.column_price.begin() + table_.cell_count);
    point.price.insert(point.price.end(), other_price.begin(), other_price.end());
    point.choices = std::move(matching.arc_of_row);
    weigh(point);
    return point;
}

/// Fills in what a point's choices take and prove.
void MatchingStart::weigh(Point& point) const {
    for (std::int32_t r = table_.cell_count; r < table_.resource_count(); ++r) {
        point.overdraft.push_back(-static_cast<double>(table_.capacity[at(r)]) / scale_[at(r)]);
    }
    for (const std::int32_t c : point.choices) {
        for (const auto& use : table_.uses_of(c)) {
            if (use.resource >= table_.cell_count) point.overdraft[other(use)] += share(use);
        }
    }
    point.bound = static_cast<double>(total_cost(table_, point.choices));
    for (std::size_t k = 0; k < point.overdraft.size(); ++k) {
        point.bound += point.price[at(table_.cell_count) + k] * point.overdraft[k];
    }
}

MatchingStart::Point MatchingStart::climb(const std::function<double(const Point&)>& offer,
                                          int most_points) {
    Point start = at_prices(std::vector<double>(table_.capacity.size() - at(table_.cell_count)));
    offer(start);
    std::vector<std::size_t> overdrawn;
    for (std::size_t k = 0; k < start.overdraft.size(); ++k) {
        if (start.overdraft[k] > 0.0) overdrawn.push_back(k);
    }
    if (overdrawn.empty()) return start;
    if (overdrawn.size() == 1) start = climb_line(start, overdrawn[0], offer, most_points);
    const bool is_done = std::ranges::all_of(start.overdraft, [&](double over) {
        return over <= 0.0 || &over == &start.overdraft[overdrawn[0]];
    });
    return is_done ? start : climb_steps(std::move(start), offer, most_points);
}

/// The bound is concave and piecewise straight in one price: where the lines of the points on both
/// sides meet lies the next point, until it lies on them.
MatchingStart::Point MatchingStart::climb_line(const Point& start, std::size_t bound_by,
                                               const std::function<double(const Point&)>& offer,
                                               int most_points) {
    const std::size_t index = at(table_.cell_count) + bound_by;
    const double near = 1.0 + table_.item_count();  // the rounding of whole grains
    std::vector<double> price(start.overdraft.size(), 0.0);
    price[bound_by] = 2.0 * static_cast<double>(table_.left_over_cost);
    Point low = start;
    Point high = at_prices(price);
    for (int point = 0; point < most_points && high.overdraft[bound_by] < 0.0; ++point) {
        const double rise = low.overdraft[bound_by];
        const double fall = -high.overdraft[bound_by];
        const double meet =
            (high.bound - low.bound + rise * low.price[index] + fall * high.price[index]) /
            (rise + fall);
        const double hope = low.bound + rise * (meet - low.price[index]);
        price[bound_by] = meet;
        Point next = at_prices(price);
        offer(next);
        const bool is_on_line = next.bound >= hope - near;
        Point& side = next.overdraft[bound_by] > 0.0 ? low : high;
        side = std::move(next);
        if (is_on_line) return side;
    }
    return low.bound > high.bound ? low : high;
}

MatchingStart::Point MatchingStart::climb_steps(Point start,
                                                const std::function<double(const Point&)>& offer,
                                                int most_points) {
    Point best = start;
    Point now = std::move(start);
    double step = 1.0;
    int idle = 0;
    for (int point = 0; point < most_points; ++point) {
        const double best_cost = offer(now);
        const double target = std::min(best_cost, now.bound * 1.05 + 1.0);
        std::vector<double> price(now.price.begin() + table_.cell_count, now.price.end());
        double square = 0.0;
        for (std::size_t k = 0; k < price.size(); ++k) {
            const double over = now.overdraft[k];
            if (price[k] > 0.0 || over > 0.0) square += over * over;
        }
        if (square <= 0.0 || now.bound >= target) break;
        const double length = step * (target - now.bound) / square;
        for (std::size_t k = 0; k < price.size(); ++k) {
            price[k] = std::max(0.0, price[k] + length * now.overdraft[k]);
        }
        now = at_prices(std::move(price));
        idle = now.bound > best.bound ? 0 : idle + 1;
        if (now.bound > best.bound) best = now;
        if (idle >= 5) {
            step *= 0.7;
            idle = 0;
        }
    }
    offer(best);
    return best;
}

}  // namespace sunfleck::assign
