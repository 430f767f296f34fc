#pragma once

#include "cli/command_line.h"
#include "cli/terminal.h"
#include "sunfleck/base/problem.h"
#include "sunfleck/output/placement_report.h"
#include "sunfleck/placement/harm_table.h"
#include "sunfleck/scene/scene.h"
#include "sunfleck/scene/scene_file.h"

#include <string>
#include <vector>

/// What the commands that plan have in common.
namespace sunfleck::cli {

/// The period that a plan is asked for.
struct AskedPeriod {
    placement::HarmPeriod period;
    bool is_default = false;  ///< nothing was asked: the season of the summer solstice was taken
};

/// The asked dates; when none are, the season that holds the year's summer solstice.
[[nodiscard]] Result<AskedPeriod> period_asked(const scene::Scene& scene,
                                               const WhenArguments& when);

/// The scene of a command that plans: it has pots and spots, and its harm weights are right.
[[nodiscard]] Result<scene::SceneFile> open_plannable_scene(const CommonArguments& common,
                                                            Terminal& terminal);

/// The harm table of a period: follows the sun over its days (every fifth of a long period) and
/// weighs every pot at every spot from where the pots stand before it.
[[nodiscard]] Result<placement::HarmTable> season_table(const scene::Scene& scene,
                                                        const placement::HarmPeriod& period,
                                                        const placement::Standing& standing,
                                                        int threads, Terminal& terminal);

/// What a report says about the period.
[[nodiscard]] Result<output::PlanPeriod> plan_period(const scene::Scene& scene,
                                                     const placement::HarmTable& table,
                                                     bool is_default_season);

/// The envelope of an answer.
[[nodiscard]] output::Envelope envelope_of(const scene::SceneFile& file, const std::string& command,
                                           const placement::HarmTable& table);

}  // namespace sunfleck::cli
