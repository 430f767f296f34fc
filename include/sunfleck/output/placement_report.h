#pragma once

#include "sunfleck/exposure/sun_arc.h"
#include "sunfleck/output/envelope.h"
#include "sunfleck/placement/harm_table.h"
#include "sunfleck/placement/move_plan.h"
#include "sunfleck/placement/season_plan.h"
#include "sunfleck/placement/why_here.h"
#include "sunfleck/scene/scene.h"
#include "sunfleck/sun/civil_time.h"

#include <string>

/// What `sunfleck place`, `sunfleck moves` and `sunfleck why` answer.
namespace sunfleck::output {

/// The period that a plan is for, and what was asked.
struct PlanPeriod {
    const scene::Scene& scene;
    const placement::HarmTable& table;
    sun::TimeZone zone;
    bool is_default_season = false;   ///< no date was asked: the season of the solstice was taken
    exposure::HotHours hot_on_first;  ///< the hot hours of its first date
    exposure::HotHours hot_on_last;
};

struct PlaceAnswer {
    PlanPeriod period;
    const placement::SeasonPlan& plan;
};

/// Text of at most 80 columns: first how much there is to carry and what it brings, then what to
/// carry and why, who is not content even so, who stays, what the plan reaches and how far from the
/// best it can be.
[[nodiscard]] std::string place_text(const PlaceAnswer& answer);
/// One row per pot. Names as in the JSON.
[[nodiscard]] std::string place_csv(const PlaceAnswer& answer);
/// Stable machine output; numbers are rounded to 1e-6.
[[nodiscard]] std::string place_json(const PlaceAnswer& answer, const Envelope& envelope);

struct MovesAnswer {
    PlanPeriod period;  ///< of the season that begins
    const placement::MovePlan& moves;
    std::string from_season;
};

/// Text of at most 80 columns: how much there is to carry, cautions, the steps in order, what each
/// move gains and why.
[[nodiscard]] std::string moves_text(const MovesAnswer& answer);
/// One row per pot that moves. Names as in the JSON.
[[nodiscard]] std::string moves_csv(const MovesAnswer& answer);
[[nodiscard]] std::string moves_json(const MovesAnswer& answer, const Envelope& envelope);

/// A line each: heavy pots, carrying in the heat. Empty when neither comes in.
[[nodiscard]] std::string carry_cautions(const PlanPeriod& period,
                                         const placement::MovePlan& moves);

struct WhyAnswer {
    PlanPeriod period;
    const placement::SeasonPlan& plan;
    const placement::WhyHere& why;
    bool is_own_choice = false;  ///< no spot was named to compare with: the program took one
};

/// Text of at most 80 columns: both spots side by side, and what the plan would lose.
[[nodiscard]] std::string why_text(const WhyAnswer& answer);
[[nodiscard]] std::string why_json(const WhyAnswer& answer, const Envelope& envelope);

}  // namespace sunfleck::output
