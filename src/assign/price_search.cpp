#include "price_search.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace sunfleck::assign {
namespace {

// Share of the new slope in the smoothed direction.
constexpr double freshness = 0.3;
// Rounding of a sum of some thousand doubles of the size of grains stays far below this.
constexpr double rounding_grains = 1e-2;

}  // namespace

std::int64_t least_whole(double bound) {
    return static_cast<std::int64_t>(std::ceil(bound - rounding_grains));
}

PriceSearch::PriceSearch(const SearchSpace& space)
    : space_(space),
      table_(space.table()),
      scale_(mean_amounts(table_)),
      priced_(table_.cost.size(), 0.0),
      cheapest_(at(table_.item_count()), 0),
      slope_(scale_.size(), 0.0),
      direction_(scale_.size(), 0.0) {
    for (const auto& use : table_.uses) {
        share_.push_back(static_cast<double>(use.amount) / scale(use.resource));
    }
}

Prices PriceSearch::zero() const {
    return {std::vector<double>(scale_.size(), 0.0), 0.0};
}

void PriceSearch::price_item(std::int32_t item, const std::vector<double>& price) {
    std::int32_t best = -1;
    for (const std::int32_t c : space_.open(item)) {
        double cost = static_cast<double>(table_.cost[at(c)]);
        for (std::int32_t u = table_.first_use[at(c)]; u < table_.first_use[at(c) + 1]; ++u) {
            cost += price[at(table_.uses[at(u)].resource)] * share_[at(u)];
        }
        effort_ += 1 + table_.first_use[at(c) + 1] - table_.first_use[at(c)];
        priced_[at(c)] = cost;
        const double least = best < 0 ? cost : priced_[at(best)];
        if (best < 0 || cost < least || (cost <= least && c < best)) best = c;
    }
    cheapest_[at(item)] = best;
}

double PriceSearch::evaluate(const std::vector<double>& price) {
    auto bound = static_cast<double>(space_.settled_cost());
    for (std::int32_t item = 0; item < table_.item_count(); ++item) {
        if (space_.is_settled(item)) continue;
        price_item(item, price);
        bound += priced(cheapest(item));
    }
    for (std::int32_t r = 0; r < table_.resource_count(); ++r) {
        bound -= price[at(r)] * (static_cast<double>(space_.room(r)) / scale(r));
    }
    return bound;
}

/// Demand less room per resource at the cheapest choices, without the pull below price zero, and
/// smoothed into the direction. Gives the slope's square length: that of the direction may be near
/// zero while the bound is far below its best, and steps by it run away.
double PriceSearch::gather_slope(const std::vector<double>& price) {
    for (std::int32_t r = 0; r < table_.resource_count(); ++r) {
        slope_[at(r)] = -static_cast<double>(space_.room(r)) / scale(r);
    }
    for (std::int32_t item = 0; item < table_.item_count(); ++item) {
        if (space_.is_settled(item)) continue;
        const std::int32_t c = cheapest(item);
        for (std::int32_t u = table_.first_use[at(c)]; u < table_.first_use[at(c) + 1]; ++u) {
            slope_[at(table_.uses[at(u)].resource)] += share_[at(u)];
        }
    }
    double square = 0.0;
    for (std::size_t r = 0; r < slope_.size(); ++r) {
        if (price[r] <= 0.0 && slope_[r] < 0.0) slope_[r] = 0.0;
        direction_[r] = (1.0 - freshness) * direction_[r] + freshness * slope_[r];
        if (price[r] <= 0.0 && direction_[r] < 0.0) direction_[r] = 0.0;
        square += slope_[r] * slope_[r];
    }
    return square;
}

Prices PriceSearch::climb(Prices start, double target, const Climb& climb) {
    std::ranges::fill(direction_, 0.0);
    std::vector<double> price = start.of_resource;
    Prices best = std::move(start);
    best.bound = evaluate(price);
    double bound = best.bound;
    double step = climb.step;
    int idle = 0;
    for (int pass = 0; pass < climb.passes && bound < target; ++pass) {
        const double square = gather_slope(price);
        if (square <= 0.0) break;
        const double length = step * (target - bound) / square;
        for (std::size_t r = 0; r < price.size(); ++r) {
            price[r] = std::max(0.0, price[r] + length * direction_[r]);
        }
        bound = evaluate(price);
        if (bound > best.bound) {
            idle = bound > best.bound + 1e-4 * (target - best.bound) ? 0 : idle + 1;
            best = {price, bound};
        } else {
            ++idle;
        }
        if (idle >= climb.patience) {
            step *= climb.damping;
            idle = 0;
        }
    }
    return best;
}

}  // namespace sunfleck::assign
