#pragma once

#include "scene/value_shape.h"
#include "sunfleck/base/json_tree.h"
#include "sunfleck/base/problem.h"

#include <cstddef>
#include <unordered_set>

namespace sunfleck::scene {

/// What checking a tree against its shape found.
struct ShapeFindings {
    Problems problems;  ///< in the order of the text; at most most_problems
    /// Values that have their shape, with all that is in them. Others must not be read.
    std::unordered_set<const JsonNode*> sound;
};

/// The most problems that are told of one file; a file that is wrong everywhere is wrong at its
/// begin, too.
inline constexpr std::size_t most_problems = 1000;

/// Checks the whole tree against the shape of its root. Says of every value that does not fit what
/// is so and how to mend it.
[[nodiscard]] ShapeFindings check_shape(const JsonTree& tree, const ObjectShape& root);

}  // namespace sunfleck::scene
