#pragma once

#include "sunfleck/base/vec3.h"

#include <optional>
#include <string>
#include <vector>

namespace sunfleck::geometry {

enum class MeshFormat { obj, ply, stl, off };

/// Corners and faces as a mesh file lists them. Not checked: a face may name a corner that is not
/// there, a corner may be infinite.
struct PolygonSoup {
    std::vector<Vec3> corners;
    std::vector<std::vector<std::size_t>> faces;
};

/// Why a file gave no soup.
enum class SoupFault {
    broken,      ///< not of the format, or cut short
    too_large,   ///< more faces, corners or corners per face than are taken
    wide_lists,  ///< a binary PLY file whose lists have 32-bit lengths
};

struct SoupResult {
    std::optional<PolygonSoup> soup;
    SoupFault fault = SoupFault::broken;
};

/// Reads the file's bytes. Sizes that a broken file claims are never believed: memory grows only
/// with what was read, up to `most_faces` faces.
[[nodiscard]] SoupResult read_polygon_soup(std::string bytes, MeshFormat format,
                                           std::size_t most_faces);

}  // namespace sunfleck::geometry
