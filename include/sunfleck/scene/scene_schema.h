#pragma once

#include <string>

namespace sunfleck::scene {

/// The JSON Schema (draft 7) of scene files, made from the reader's own table of keys, with a
/// newline at its end. It says what the text of a scene may be; what a scene must mean beyond that
/// (ids that exist, corners in order, days that are in the calendar) only the reader knows.
[[nodiscard]] std::string scene_schema();

}  // namespace sunfleck::scene
