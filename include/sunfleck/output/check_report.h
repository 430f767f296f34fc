#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/scene/scene_file.h"

#include <string>

/// What `sunfleck check` answers.
namespace sunfleck::output {

/// One problem: its place on a line of its own, so that editors can jump to it, and below it what
/// is so and the mend; one that has no place begins with its words. At most 80 columns but for
/// paths.
[[nodiscard]] std::string problem_text(const Problem& problem);
/// Text of at most 80 columns: the warnings, then what the sound scene holds.
[[nodiscard]] std::string sound_scene_text(const scene::SceneFile& file);
/// Every problem at its place, then how many there are.
[[nodiscard]] std::string wrong_scene_text(const Problems& problems);
/// Stable machine output of both.
[[nodiscard]] std::string sound_scene_json(const scene::SceneFile& file);
[[nodiscard]] std::string wrong_scene_json(const std::string& file, const Problems& problems);

}  // namespace sunfleck::output
