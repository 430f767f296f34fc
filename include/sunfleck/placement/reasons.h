#pragma once

#include "sunfleck/placement/harm_table.h"
#include "sunfleck/placement/season_plan.h"
#include "sunfleck/scene/scene.h"

#include <cstddef>
#include <string>
#include <vector>

/// The plan in a neighbour's words. Every figure in them is one of SpotFigures, to 5 min.
namespace sunfleck::placement {

/// How a pot fares at a spot over the period, by its harm a day.
enum class PotState { content, scorches, gets_hot, too_dark };

/// Harm a day, in growth days, from which a pot is no longer content.
inline constexpr double content_below = 0.25;

[[nodiscard]] PotState state_at(const HarmTable& table, std::size_t row, std::size_t spot);
/// "content", "scorches", "pot gets hot", "too dark".
[[nodiscard]] std::string state_words(PotState state);

/// The pot's code; of a batch "B05 (2 of 6)".
[[nodiscard]] std::string pot_words(const scene::Scene& scene, const HarmRow& row);

/// How the pot fares at a spot: "Content: 35 min of full sun in the hot hours, 7 h in the day."
[[nodiscard]] std::string standing_words(const HarmTable& table, std::size_t row, std::size_t spot);

/// Growth days that a row saves by going from its start spot to a spot, its jump counted, the
/// effort of the move not. The row must stand somewhere.
[[nodiscard]] double own_gain(const HarmTable& table, std::size_t row, std::size_t spot);

/// Why the plan moves a row that stood somewhere: what it had there ("here") and what it gets
/// ("there"), for whom it makes room, or that both are equally good.
[[nodiscard]] std::string move_reason(const scene::Scene& scene, const HarmTable& table,
                                      const Standing& plan, std::size_t row);

/// Why a row stands where the plan puts it: a move's reason, or how it fares there.
[[nodiscard]] std::string place_reason(const scene::Scene& scene, const HarmTable& table,
                                       const Standing& plan, std::size_t row);

/// A pot that nothing suits: even its best spot leaves it in harm, or none is allowed to it.
struct Unsuited {
    std::size_t row = 0;
    std::optional<std::size_t>
        spot;  ///< the least bad of those allowed to it; none: no room at all
    std::string why;
};
[[nodiscard]] std::vector<Unsuited> unsuited_pots(const HarmTable& table, const Standing& plan);

/// "M07 does not fit at Fence bench 2." and the like; empty for Refusal::none.
[[nodiscard]] std::string refusal_words(const scene::Scene& scene, const HarmTable& table,
                                        std::size_t row, std::size_t spot);

}  // namespace sunfleck::placement
