#pragma once

#include "sunfleck/base/json_tree.h"
#include "sunfleck/base/problem.h"

#include <cstddef>
#include <string>
#include <variant>
#include <vector>

/// The garden being worked on: what changes it, and what takes changes back.
namespace sunfleck::document {

/// Puts a value, given as JSON text, at a pointer: in place of what stands there, or as a new
/// member of the object that the pointer's last step is missing in.
struct SetValue {
    std::string pointer;
    std::string json;
};

/// Puts a value into a list so that it stands at `index`, or at its end. A list that the scene
/// does not have yet is made.
struct InsertItem {
    static constexpr std::size_t at_end = static_cast<std::size_t>(-1);
    std::string list;  ///< JSON pointer such as "/benches"
    std::size_t index = at_end;
    std::string json;
};

/// Takes away what stands at a pointer; nothing when it is not there.
struct Remove {
    std::string pointer;
};

using EditStep = std::variant<SetValue, InsertItem, Remove>;

/// One thing that the grower does to the garden; undone as one.
struct Command {
    std::string name;             ///< as undo tells it: "Move Long bench"
    std::vector<EditStep> steps;  ///< each refers to the garden as the ones before have left it
    /// Commands of one strand that follow one another directly, such as those of one drag, are
    /// undone together. Empty: of no strand.
    std::string strand;
};

/// The text after the steps; every byte that they do not concern stays. Fails when a pointer has
/// no place in the text. The result is JSON but may be no sound scene.
[[nodiscard]] Result<std::string> with_steps(std::string text, const std::vector<EditStep>& steps);

}  // namespace sunfleck::document
