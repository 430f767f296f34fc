#pragma once

#include "search_space.h"

#include <cstdint>
#include <vector>

namespace sunfleck::assign {

/// A price per resource, and what it proves: with the resources at these prices every item takes
/// its cheapest open choice on its own, and no plan of this part of the search costs less than
/// the sum, less the worth of the room (Lagrangian bound).
struct Prices {
    std::vector<double> of_resource;  ///< grains per unit of scaled amount, >= 0
    double bound = 0.0;               ///< grains
};

/// How far to climb.
struct Climb {
    int passes = 0;
    double step = 1.0;     ///< share of the Polyak step
    int patience = 40;     ///< passes without progress before the step shrinks
    double damping = 0.9;  ///< how much it shrinks
};

/// Raises the bound of a search space by subgradient steps. Amounts are scaled so that prices of
/// cells and of loads are of one size.
class PriceSearch {
  public:
    explicit PriceSearch(const SearchSpace& space);

    /// All prices zero.
    [[nodiscard]] Prices zero() const;
    /// Polyak steps towards `target` (grains) along a smoothed direction; the best prices met.
    /// Ends early once the bound proves that nothing here is cheaper than `target`.
    [[nodiscard]] Prices climb(Prices start, double target, const Climb& climb);
    /// The bound at given prices; the reduced costs below are of these prices until the next call.
    double evaluate(const std::vector<double>& price);

    /// Cost plus prices of an open choice, grains.
    [[nodiscard]] double priced(std::int32_t choice) const { return priced_[at(choice)]; }
    /// The item's cheapest open choice; the first of equals.
    [[nodiscard]] std::int32_t cheapest(std::int32_t item) const { return cheapest_[at(item)]; }
    [[nodiscard]] double scale(std::int32_t resource) const { return scale_[at(resource)]; }
    /// Open uses looked at so far: the measure of effort.
    [[nodiscard]] std::int64_t effort() const { return effort_; }

  private:
    void price_item(std::int32_t item, const std::vector<double>& price);
    [[nodiscard]] double gather_slope(const std::vector<double>& price);

    const SearchSpace& space_;
    const ChoiceTable& table_;
    std::vector<double> scale_;  ///< amounts in one scaled unit, per resource
    std::vector<double> share_;  ///< scaled amount, per use
    std::vector<double> priced_;
    std::vector<std::int32_t> cheapest_;
    std::vector<double> slope_;
    std::vector<double> direction_;
    std::int64_t effort_ = 0;
};

/// Whole grains: the least cost a plan can have if it cannot cost less than `bound`.
[[nodiscard]] std::int64_t least_whole(double bound);

}  // namespace sunfleck::assign
