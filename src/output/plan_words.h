#pragma once

#include "sunfleck/output/placement_report.h"

#include <optional>
#include <string>

/// What the texts of place, moves and why have in common.
namespace sunfleck::output {

/// "Fern Yard, midsummer, 21 June to 15 August 2026: where the pots should stand." and the hot
/// hours by the clock; ends with an empty line.
[[nodiscard]] std::string plan_opening(const PlanPeriod& period, const std::string& what);
/// "12.4 growth days", from 100 up whole ones.
[[nodiscard]] std::string growth_days_words(double growth_days);
/// "No plan does better: this is proved." or how much better one could be at most.
[[nodiscard]] std::string gap_words(const placement::SeasonPlan& plan);
/// A paragraph of at most 80 columns and its newline.
[[nodiscard]] std::string paragraph(const std::string& text);
/// The id of a spot, or nothing.
[[nodiscard]] std::string spot_id(const placement::HarmTable& table,
                                  const std::optional<std::size_t>& spot);

}  // namespace sunfleck::output
