#pragma once

#include "year_table.h"

#include <cstdint>
#include <vector>

namespace sunfleck::assign {

/// Prices per resource and period. At given prices every item's cheapest year is a dynamic
/// program over its places; their sum, less the worth of all capacity, is what no plan of the year
/// can undercut (Lagrangian bound). Step costs beyond the effort are left out.
class YearPrices {
  public:
    explicit YearPrices(const YearTable& table);

    /// Grains per mean amount of the period's resource.
    using PerPeriod = std::vector<std::vector<double>>;

    [[nodiscard]] const PerPeriod& best() const { return best_; }
    [[nodiscard]] double best_bound() const { return best_bound_; }

    /// Tries prices; keeps them where their bound (grains) is the highest yet.
    double offer(const PerPeriod& price);
    /// One sweep of dual ascent: period by period the prices become those of the assignment of
    /// items to places at the cost of the items' best years through them (min-marginals), or go
    /// `step` of the way there. For periods whose choices take one cell each and nothing else.
    void sweep(double step);
    /// Polyak steps along a smoothed subgradient towards `target` (grains), from where the last
    /// climb ended, at first from the best prices.
    void climb(double target, int passes);

    /// Makes to_go speak of the best prices.
    void look_at_best() { evaluate(best_); }
    /// The cheapest priced rest of the year after standing at a choice of the period, grains, at
    /// the prices last looked at.
    [[nodiscard]] double to_go(std::int32_t t, std::int32_t choice) const {
        return to_go_[at(t)][at(choice)];
    }

    /// The item's years that a plan better by `spare` (grains) than the bound could take: its
    /// cheapest priced years through some place in some period, the cheapest first, at most `most`.
    /// At the prices last looked at.
    [[nodiscard]] YearChoices years_worth_a_look(std::int32_t item, double spare, std::size_t most);

  private:
    void price_period(std::int32_t t, const std::vector<double>& price);
    void look_back(std::int32_t item);
    void arrive(std::int32_t t, std::int32_t item);
    [[nodiscard]] double cheapest_year(std::int32_t item, std::vector<std::int32_t>& path) const;
    void go_on(std::int32_t item, std::int32_t from, std::vector<std::int32_t>& path) const;
    void go_back(std::int32_t item, std::int32_t from, std::vector<std::int32_t>& path) const;
    [[nodiscard]] double worth_of_capacity(const PerPeriod& price) const;
    double evaluate(const PerPeriod& price);
    void keep(const PerPeriod& price, double bound);
    [[nodiscard]] std::vector<double> marginal_prices(std::int32_t t) const;
    [[nodiscard]] double gather_slope(const PerPeriod& price);

    const YearTable& table_;
    PerPeriod scale_;   ///< mean amounts
    PerPeriod priced_;  ///< per period and choice
    PerPeriod to_go_;
    PerPeriod arrival_;  ///< cheapest priced year up to a choice, without the choice itself
    PerPeriod slope_;
    PerPeriod direction_;
    PerPeriod best_;
    double best_bound_ = -1.0;
    PerPeriod now_;  ///< where the climb stands
    double now_bound_ = -1.0;
    double step_ = 1.0;
    bool is_fresh_ = true;  ///< no direction yet
    int idle_ = 0;
};

}  // namespace sunfleck::assign
