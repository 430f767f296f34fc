#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/geometry/triangle_tree.h"

#include <filesystem>
#include <string>
#include <vector>

namespace sunfleck::geometry {

inline constexpr std::size_t most_mesh_triangles = 2'000'000;

/// The triangles of an OBJ, PLY, STL or OFF file, in its own coordinates. Faces with more corners
/// are cut into triangles. `name` is the file as the scene writes it, for messages. The problems
/// carry no scene file and pointer.
[[nodiscard]] Result<std::vector<Triangle>> read_mesh(const std::filesystem::path& path,
                                                      const std::string& name);

}  // namespace sunfleck::geometry
