#include "cli/season_table.h"

#include "sunfleck/exposure/exposure.h"
#include "sunfleck/scene/spots.h"

namespace sunfleck::cli {
namespace {

// Longer periods are computed every fifth day.
constexpr int most_single_days = 10;
constexpr int stride_days = 5;

tl::unexpected<Problems> no_plan(const char* message, const char* mend) {
    return failure({.kind = ProblemKind::no_answer,
                    .code = "nothing_to_place",
                    .message = message,
                    .mend = mend});
}

}  // namespace

Result<placement::HarmTable> season_table(const scene::Scene& scene,
                                          const placement::HarmPeriod& period,
                                          const placement::Standing& standing, int threads) {
    const auto spots = scene::spots_of(scene);
    const int days = days_between(period.dates.from, period.dates.to) + 1;
    const auto exposure = exposure::compute_exposure(
        scene, {.from = period.dates.from,
                .to = period.dates.to,
                .day_step = days > most_single_days ? stride_days : 1,
                .receivers = placement::receivers_needed(scene, spots, period.dates),
                .thread_count = threads,
                .progress = [](double) { return !was_interrupted(); }});
    if (!exposure) return tl::unexpected(exposure.error());
    return placement::make_harm_table(scene, spots, period, *exposure, standing);
}

std::vector<std::string> spots_of_pots(const scene::Scene& scene, const placement::HarmTable& table,
                                       const placement::Standing& plan) {
    std::vector<std::string> ids(scene.pots.size());
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        if (table.rows[row].copy != 1 || !plan[row]) continue;
        ids[table.rows[row].pot] = table.spots[*plan[row]].id;
    }
    return ids;
}

Result<void> require_pots_and_spots(const scene::Scene& scene) {
    if (scene.pots.empty()) {
        return no_plan("The scene has no pots.", "Add some under \"pots\", or take --pots FILE.");
    }
    if (scene::spots_of(scene).empty()) {
        return no_plan("The scene has no spots.", "Add a bench or a post stand.");
    }
    return {};
}

}  // namespace sunfleck::cli
