#pragma once

#include "branch_search.h"
#include "year_table.h"

#include <compare>
#include <cstdint>
#include <vector>

namespace sunfleck::assign {

/// How good a year's plan is: fewest left over first, then cheapest.
struct YearScore {
    std::int64_t left_over = 0;
    std::int64_t cost = 0;  ///< grains
    auto operator<=>(const YearScore&) const = default;
};

[[nodiscard]] YearScore year_score(const YearTable& table, const YearChoices& plan);

/// Makes a whole year's plan better in steps that each keep it sound; in a fixed order, so the
/// same each time.
class YearPolish {
  public:
    YearPolish(const YearTable& table, YearChoices plan, const SearchEffort& effort);

    /// Rounds of: every item's year anew in what room the others leave it; the places of every
    /// window of periods dealt anew among the items that stay put through it.
    void improve(int rounds);
    /// Tries a whole year for one item: whoever stands in its way gets the cheapest year that is
    /// left. True where that is better, and taken.
    bool try_year(std::int32_t item, const std::vector<std::int32_t>& year);

    [[nodiscard]] const YearChoices& plan() const { return plan_; }
    [[nodiscard]] const YearScore& score() const { return score_; }

  private:
    [[nodiscard]] bool improve_item(std::int32_t item);
    [[nodiscard]] bool improve_window(std::int32_t first, std::int32_t last);
    [[nodiscard]] bool take_if_better(const YearChoices& plan);
    [[nodiscard]] std::vector<std::int32_t> items_in_the_way(
        std::int32_t item, const std::vector<std::int32_t>& year) const;
    bool try_year_before(std::int32_t item, const std::vector<std::int32_t>& year,
                         const std::vector<std::int32_t>& others);
    void put(std::int32_t item, const std::vector<std::int32_t>& year);
    [[nodiscard]] std::vector<std::vector<std::int64_t>> room_without(std::int32_t item) const;
    [[nodiscard]] std::vector<std::int32_t> cheapest_year(std::int32_t item) const;
    [[nodiscard]] bool stays_put(std::int32_t item, std::int32_t first, std::int32_t last) const;
    /// One table of the items that stay put: their choices of the first period that they could
    /// keep to the last, at the cost of the whole window with the steps into and out of it.
    struct Window {
        ChoiceTable table;
        std::vector<std::int32_t> items;
        std::vector<std::int32_t> choice;  ///< of the first period, per choice of the table
    };
    [[nodiscard]] Window window(std::int32_t first, std::int32_t last) const;
    void add_choices(Window& window, std::int32_t item, std::int32_t first,
                     std::int32_t last) const;
    void reserve_others(Window& window, std::int32_t first, std::int32_t last) const;

    const YearTable& table_;
    SearchEffort effort_;
    YearChoices plan_;
    YearScore score_;
};

}  // namespace sunfleck::assign
