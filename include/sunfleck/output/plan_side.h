#pragma once

#include "sunfleck/geometry/garden.h"
#include "sunfleck/output/canvas.h"
#include "sunfleck/output/plan_view.h"
#include "sunfleck/placement/harm_table.h"
#include "sunfleck/scene/scene.h"

#include <cstddef>
#include <string>

/// One of the two plans of now and after.
namespace sunfleck::output {

struct PlanSide {
    const scene::Scene& scene;
    const placement::HarmTable& table;
    std::string heading;  ///< "Now", "After 14 lifts"
    placement::Standing standing;
};

/// Where the table's pots stand before its period.
[[nodiscard]] placement::Standing start_of(const placement::HarmTable& table);
/// How many of them are not content there.
[[nodiscard]] std::size_t pots_in_harm(const placement::HarmTable& table,
                                       const placement::Standing& standing);

inline constexpr double plan_head_height = 68.0;
/// The heading, and under it how many pots are in harm.
void draw_plan_head(Canvas& canvas, const SheetBox& box, const PlanSide& side,
                    const Palette& palette = morning);
/// The garden without shadows, each pot by how it fares, those that moved ringed.
void draw_plan_side(Canvas& canvas, const PlanView& view, const geometry::Garden& garden,
                    const PlanSide& side, const Palette& palette = morning);

}  // namespace sunfleck::output
