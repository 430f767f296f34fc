#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/output/picture.h"
#include "sunfleck/placement/harm_table.h"
#include "sunfleck/scene/scene_file.h"

#include <functional>
#include <string>

namespace sunfleck::cli {

/// The files that a command that plans is asked to write beside its answer; empty: not asked.
struct PlanFiles {
    std::string scene;  ///< with the plan's places as the pots' own
    std::string picture;
};

/// Whether they could be written, as far as names and folders tell, before the long work that they
/// are for.
[[nodiscard]] Result<void> check_plan_files(const PlanFiles& files);

/// Writes them, each whole or not at all; nothing when the user has stopped the program.
[[nodiscard]] Result<void> write_plan_files(
    const PlanFiles& files, const scene::SceneFile& scene, const placement::HarmTable& table,
    const placement::Standing& plan,
    const std::function<Result<std::string>(const output::PictureOptions&)>& draw);

/// "Wrote midsummer.json: the scene with these places." and the same of a picture; a line each.
[[nodiscard]] std::string written_words(const PlanFiles& files);

}  // namespace sunfleck::cli
