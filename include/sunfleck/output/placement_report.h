#pragma once

#include "sunfleck/output/envelope.h"
#include "sunfleck/placement/harm_table.h"
#include "sunfleck/placement/move_plan.h"
#include "sunfleck/placement/reasons.h"
#include "sunfleck/placement/season_plan.h"
#include "sunfleck/scene/scene.h"

#include <string>

/// What `sunfleck place` and `sunfleck moves` answer.
namespace sunfleck::output {

/// A season's plan and the table it was made from.
struct PlaceAnswer {
    const scene::Scene& scene;
    const placement::HarmTable& table;
    const placement::SeasonPlan& plan;
};

/// Text of at most 80 columns: a row per pot with its spot and reason, pots that nothing suits,
/// what the plan reaches and how far from the best it can be.
[[nodiscard]] std::string place_text(const PlaceAnswer& answer);
/// One row per pot. Names as in the JSON.
[[nodiscard]] std::string place_csv(const PlaceAnswer& answer);
/// Stable machine output.
[[nodiscard]] std::string place_json(const PlaceAnswer& answer, const Envelope& envelope);

/// The way from one season to the next.
struct MovesAnswer {
    const scene::Scene& scene;
    const placement::HarmTable& table;  ///< of the season that begins
    const placement::MovePlan& moves;
    std::string from_season;
};

/// Text of at most 80 columns: the steps in order, the gain of each group, cautions.
[[nodiscard]] std::string moves_text(const MovesAnswer& answer);
[[nodiscard]] std::string moves_csv(const MovesAnswer& answer);
[[nodiscard]] std::string moves_json(const MovesAnswer& answer, const Envelope& envelope);

}  // namespace sunfleck::output
