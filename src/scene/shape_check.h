#pragma once

#include "scene/value_shape.h"
#include "sunfleck/base/json_tree.h"
#include "sunfleck/base/problem.h"

#include <unordered_set>

namespace sunfleck::scene {

/// What checking a tree against its shape found.
struct ShapeFindings {
    Problems problems;                           ///< in the order of the text
    std::unordered_set<const JsonNode*> faulty;  ///< values that hold a problem somewhere inside
};

/// Checks the whole tree against the shape of its root. Says of every value that does not fit what
/// is so and how to mend it.
[[nodiscard]] ShapeFindings check_shape(const JsonTree& tree, const ObjectShape& root);

}  // namespace sunfleck::scene
