#pragma once

#include "cli/command_line.h"
#include "cli/terminal.h"
#include "sunfleck/base/problem.h"
#include "sunfleck/scene/scene_file.h"
#include "sunfleck/scene/seasons.h"

#include <string>

/// What every command that reads a scene begins with.
namespace sunfleck::cli {

/// The scene of the command, with its pots CSV when one is named. Warnings go to `terminal.err`.
[[nodiscard]] Result<scene::SceneFile> open_scene(const CommonArguments& common,
                                                  Terminal& terminal);

/// The dates a command computes.
struct AskedDates {
    scene::DateRange range;
    std::string season;       ///< empty when none was named
    bool is_default = false;  ///< nothing was asked: the summer solstice's day was taken
};

/// One day, a range (both ends), a season, or the year's summer solstice. Two of these at once,
/// half a range, a range that runs backwards or is longer than 366 days, and an unknown season are
/// usage problems.
[[nodiscard]] Result<AskedDates> dates_asked(const scene::Scene& scene, const WhenArguments& when);

}  // namespace sunfleck::cli
