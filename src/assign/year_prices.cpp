#include "year_prices.h"

#include "matching.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <tuple>
#include <utility>

namespace sunfleck::assign {
namespace {

// Share of the new slope in the smoothed direction; passes without progress before the step
// shrinks, and by how much. Damping faster freezes the climb early.
constexpr double freshness = 0.2;
constexpr int patience = 40;
constexpr double damping = 0.9;

}  // namespace

YearPrices::YearPrices(const YearTable& table) : table_(table) {
    for (std::int32_t t = 0; t < table.period_count(); ++t) {
        const ChoiceTable& period = table.period(t);
        scale_.push_back(mean_amounts(period));
        priced_.emplace_back(period.cost.size(), 0.0);
        slope_.emplace_back(period.capacity.size(), 0.0);
    }
    to_go_ = arrival_ = priced_;
    direction_ = best_ = slope_;
}

void YearPrices::price_period(std::int32_t t, const std::vector<double>& price) {
    const ChoiceTable& period = table_.period(t);
    for (std::int32_t c = 0; c < period.choice_count(); ++c) {
        double cost = static_cast<double>(period.cost[at(c)]);
        for (const auto& use : period.uses_of(c)) {
            const std::size_t r = at(use.resource);
            cost += price[r] * (static_cast<double>(use.amount) / scale_[at(t)][r]);
        }
        priced_[at(t)][at(c)] = cost;
    }
}

/// Cheapest priced rest of the year after each choice. From and to being left over is free: that
/// only lowers the bound.
void YearPrices::look_back(std::int32_t item) {
    const auto effort = static_cast<double>(table_.move_effort(item));
    for (std::int32_t t = table_.period_count() - 2; t >= 0; --t) {
        const ChoiceTable& now = table_.period(t);
        const ChoiceTable& next = table_.period(t + 1);
        const auto rest = [&](std::int32_t c) {
            return priced_[at(t + 1)][at(c)] + to_go_[at(t + 1)][at(c)];
        };
        const double left_over = rest(next.left_over(item));
        double least = left_over;
        for (std::int32_t c = next.begin(item); c < next.end(item); ++c) {
            least = std::min(least, rest(c));
        }
        for (std::int32_t c = now.begin(item); c < now.left_over(item); ++c) {
            const std::int32_t same = table_.stay(t, c);
            double cost = std::min(left_over, least + effort);
            if (same >= 0) cost = std::min(cost, rest(same));
            to_go_[at(t)][at(c)] = cost;
        }
        to_go_[at(t)][at(now.left_over(item))] = least;
    }
}

/// Cheapest priced year up to each choice of period t, from that of the period before.
void YearPrices::arrive(std::int32_t t, std::int32_t item) {
    const ChoiceTable& now = table_.period(t);
    const auto effort = static_cast<double>(table_.move_effort(item));
    std::vector<double>& arrival = arrival_[at(t)];
    if (t == 0) {
        const std::int32_t initial = table_.problem().items[at(item)].initial_place;
        for (std::int32_t c = now.begin(item); c < now.left_over(item); ++c) {
            arrival[at(c)] = initial < 0 || table_.place(0, c) == initial ? 0.0 : effort;
        }
        arrival[at(now.left_over(item))] = 0.0;
        return;
    }
    const ChoiceTable& last = table_.period(t - 1);
    const auto until = [&](std::int32_t c) {
        return arrival_[at(t - 1)][at(c)] + priced_[at(t - 1)][at(c)];
    };
    const double left_over = until(last.left_over(item));
    double least = left_over;
    for (std::int32_t c = last.begin(item); c < last.end(item); ++c) {
        least = std::min(least, until(c));
    }
    for (std::int32_t c = now.begin(item); c < now.left_over(item); ++c) {
        arrival[at(c)] = std::min(left_over, least + effort);
    }
    arrival[at(now.left_over(item))] = least;
    for (std::int32_t c = last.begin(item); c < last.left_over(item); ++c) {
        const std::int32_t same = table_.stay(t - 1, c);
        if (same >= 0) arrival[at(same)] = std::min(arrival[at(same)], until(c));
    }
}

/// The item's cheapest priced year and its choices; the first of equals, staying before moving.
double YearPrices::cheapest_year(std::int32_t item, std::vector<std::int32_t>& path) const {
    const ChoiceTable& first = table_.period(0);
    const auto year = [&](std::int32_t c) {
        return arrival_[0][at(c)] + priced_[0][at(c)] + to_go_[0][at(c)];
    };
    path[0] = first.begin(item);
    for (std::int32_t c = first.begin(item); c < first.end(item); ++c) {
        if (year(c) < year(path[0])) path[0] = c;
    }
    go_on(item, 0, path);
    return year(path[0]);
}

/// Completes a path after period `from`.
void YearPrices::go_on(std::int32_t item, std::int32_t from,
                       std::vector<std::int32_t>& path) const {
    const auto effort = static_cast<double>(table_.move_effort(item));
    for (std::int32_t t = from + 1; t < table_.period_count(); ++t) {
        const ChoiceTable& period = table_.period(t);
        const std::int32_t before = path[at(t - 1)];
        const std::int32_t stay = table_.stay(t - 1, before);
        const bool is_free = before == table_.period(t - 1).left_over(item);
        const auto rest = [&](std::int32_t c) {
            const bool moves = !is_free && c != stay && c != period.left_over(item);
            return priced_[at(t)][at(c)] + to_go_[at(t)][at(c)] + (moves ? effort : 0.0);
        };
        std::int32_t best = stay >= 0 ? stay : period.begin(item);
        double least = rest(best);
        for (std::int32_t c = period.begin(item); c < period.end(item); ++c) {
            if (rest(c) >= least) continue;
            best = c;
            least = rest(c);
        }
        path[at(t)] = best;
    }
}

/// Completes a path before period `from`.
void YearPrices::go_back(std::int32_t item, std::int32_t from,
                         std::vector<std::int32_t>& path) const {
    const auto effort = static_cast<double>(table_.move_effort(item));
    for (std::int32_t t = from - 1; t >= 0; --t) {
        const ChoiceTable& period = table_.period(t);
        const std::int32_t after = path[at(t + 1)];
        const bool is_free = after == table_.period(t + 1).left_over(item);
        const auto until = [&](std::int32_t c) {
            const bool moves =
                !is_free && table_.stay(t, c) != after && c != period.left_over(item);
            return arrival_[at(t)][at(c)] + priced_[at(t)][at(c)] + (moves ? effort : 0.0);
        };
        std::int32_t best = period.begin(item);
        for (std::int32_t c = best; c < period.end(item); ++c) {
            if (until(c) < until(best)) best = c;
        }
        path[at(t)] = best;
    }
}

YearChoices YearPrices::years_worth_a_look(std::int32_t item, double spare, std::size_t most) {
    struct Through {
        double year;
        std::int32_t t;
        std::int32_t choice;
        bool operator<(const Through& other) const {
            return std::tie(year, t, choice) < std::tie(other.year, other.t, other.choice);
        }
    };
    std::vector<Through> through;
    for (std::int32_t t = 0; t < table_.period_count(); ++t) {
        arrive(t, item);
        const ChoiceTable& period = table_.period(t);
        for (std::int32_t c = period.begin(item); c < period.end(item); ++c) {
            through.push_back(
                {arrival_[at(t)][at(c)] + priced_[at(t)][at(c)] + to_go_[at(t)][at(c)], t, c});
        }
    }
    std::ranges::sort(through, std::less{});
    YearChoices years;
    for (const Through& way : through) {
        if (way.year - through.front().year > spare || years.size() >= most) break;
        std::vector<std::int32_t> path(at(table_.period_count()), -1);
        path[at(way.t)] = way.choice;
        go_on(item, way.t, path);
        go_back(item, way.t, path);
        if (std::ranges::find(years, path) == years.end()) years.push_back(std::move(path));
    }
    return years;
}

double YearPrices::worth_of_capacity(const PerPeriod& price) const {
    double worth = 0.0;
    for (std::size_t t = 0; t < price.size(); ++t) {
        const ChoiceTable& period = table_.period(static_cast<std::int32_t>(t));
        for (std::size_t r = 0; r < price[t].size(); ++r) {
            worth += price[t][r] * (static_cast<double>(period.capacity[r]) / scale_[t][r]);
        }
    }
    return worth;
}

/// The bound; leaves demand less capacity in slope_.
double YearPrices::evaluate(const PerPeriod& price) {
    for (std::int32_t t = 0; t < table_.period_count(); ++t) {
        price_period(t, price[at(t)]);
        const ChoiceTable& period = table_.period(t);
        for (std::size_t r = 0; r < slope_[at(t)].size(); ++r) {
            slope_[at(t)][r] = -static_cast<double>(period.capacity[r]) / scale_[at(t)][r];
        }
    }
    double bound = -worth_of_capacity(price);
    std::vector<std::int32_t> path(at(table_.period_count()));
    for (std::int32_t item = 0; item < table_.item_count(); ++item) {
        look_back(item);
        if (table_.period_count() > 0) arrive(0, item);
        bound += cheapest_year(item, path);
        for (std::int32_t t = 0; t < table_.period_count(); ++t) {
            for (const auto& use : table_.period(t).uses_of(path[at(t)])) {
                slope_[at(t)][at(use.resource)] +=
                    static_cast<double>(use.amount) / scale_[at(t)][at(use.resource)];
            }
        }
    }
    return bound;
}

void YearPrices::keep(const PerPeriod& price, double bound) {
    if (bound <= best_bound_) return;
    best_ = price;
    best_bound_ = bound;
}

double YearPrices::offer(const PerPeriod& price) {
    const double bound = evaluate(price);
    keep(price, bound);
    return bound;
}

std::vector<double> YearPrices::marginal_prices(std::int32_t t) const {
    const ChoiceTable& period = table_.period(t);
    std::vector<std::int32_t> column;
    std::vector<std::int64_t> cost;
    for (std::int32_t item = 0; item < table_.item_count(); ++item) {
        for (std::int32_t c = period.begin(item); c < period.end(item); ++c) {
            const auto uses = period.uses_of(c);
            column.push_back(uses.empty() ? period.cell_count + item : uses[0].resource);
            const double rest = arrival_[at(t)][at(c)] + to_go_[at(t)][at(c)];
            cost.push_back(period.cost[at(c)] + std::llround(rest));
        }
    }
    const Matching matching = least_cost_matching(
        {period.first_choice, column, cost, period.cell_count + period.item_count()});
    std::vector<double> price(matching.column_price.begin(),
                              matching.column_price.begin() + period.cell_count);
    price.resize(period.capacity.size(), 0.0);
    return price;
}

void YearPrices::sweep(double step) {
    PerPeriod price = best_;
    evaluate(price);
    for (std::int32_t t = 0; t < table_.period_count(); ++t) {
        for (std::int32_t item = 0; item < table_.item_count(); ++item) arrive(t, item);
        const std::vector<double> aim = marginal_prices(t);
        for (std::size_t r = 0; r < aim.size(); ++r) {
            price[at(t)][r] += step * (aim[r] - price[at(t)][r]);
        }
        price_period(t, price[at(t)]);
    }
    keep(price, evaluate(price));
}

double YearPrices::gather_slope(const PerPeriod& price) {
    double square = 0.0;
    for (std::size_t t = 0; t < price.size(); ++t) {
        for (std::size_t r = 0; r < price[t].size(); ++r) {
            const bool is_low = price[t][r] <= 0.0;
            const double slope = is_low && slope_[t][r] < 0.0 ? 0.0 : slope_[t][r];
            double& direction = direction_[t][r];
            direction = is_fresh_ ? slope : (1.0 - freshness) * direction + freshness * slope;
            if (is_low && direction < 0.0) direction = 0.0;
            square += slope * slope;
        }
    }
    is_fresh_ = false;
    return square;
}

void YearPrices::climb(double target, int passes) {
    if (now_.empty()) now_ = best_;
    now_bound_ = offer(now_);
    for (int pass = 0; pass < passes && best_bound_ < target; ++pass) {
        const double square = gather_slope(now_);
        if (square <= 0.0) return;
        const double length = step_ * (target - now_bound_) / square;
        for (std::size_t t = 0; t < now_.size(); ++t) {
            for (std::size_t r = 0; r < now_[t].size(); ++r) {
                now_[t][r] = std::max(0.0, now_[t][r] + length * direction_[t][r]);
            }
        }
        const double before = best_bound_;
        now_bound_ = offer(now_);
        idle_ = best_bound_ > before + 1e-4 * (target - before) ? 0 : idle_ + 1;
        if (idle_ < patience) continue;
        step_ *= damping;
        idle_ = 0;
    }
}

}  // namespace sunfleck::assign
