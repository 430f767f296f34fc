#pragma once

#include "plan_polish.h"
#include "price_search.h"

#include <cstdint>
#include <vector>

namespace sunfleck::assign {

/// A plan of a table and what no plan can cost less than, both in grains.
struct ProvedPlan {
    std::vector<std::int32_t> choices;
    std::int64_t cost = 0;
    std::int64_t bound = 0;
    std::vector<double> price;  ///< grains per whole amount of a resource, at the root
};

/// How long to search, counted in uses of choices looked at, not in time, so that equal input
/// gives equal output.
struct SearchEffort {
    std::int64_t root = 0;
    std::int64_t branching = 0;
};

/// The least-cost plan by Lagrangian prices, priced construction and polish, then depth-first
/// branch and bound with choices closed by reduced cost.
[[nodiscard]] ProvedPlan least_cost_plan(const ChoiceTable& table, const SearchEffort& effort);

}  // namespace sunfleck::assign
