#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/scene/scene_file.h"

#include <string>

/// What `sunfleck check` answers.
namespace sunfleck::output {

/// Text of at most 80 columns: the warnings, then what the sound scene holds.
[[nodiscard]] std::string sound_scene_text(const scene::SceneFile& file);
/// Every problem at its place, then how many there are.
[[nodiscard]] std::string wrong_scene_text(const Problems& problems);
/// Stable machine output of both.
[[nodiscard]] std::string sound_scene_json(const scene::SceneFile& file);
[[nodiscard]] std::string wrong_scene_json(const std::string& file, const Problems& problems);

}  // namespace sunfleck::output
