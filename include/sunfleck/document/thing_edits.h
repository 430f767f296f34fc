#pragma once

#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/document/command.h"
#include "sunfleck/document/document.h"

#include <optional>
#include <string>
#include <string_view>

/// What a grower does to things of a garden, as commands. A thing is named by its JSON pointer,
/// such as scene::Label::pointer. Lengths are written to the millimetre, bearings to 0.01 degree.
/// Each gives no steps when the thing is not there or has nothing of the kind.
namespace sunfleck::document {

/// Moves a thing by a vector of the plan, in metres.
[[nodiscard]] Command move_thing(const Document& document, const std::string& pointer, Vec2 by_m);

/// Turns a thing clockwise, seen from above, about a point of the plan.
[[nodiscard]] Command turn_thing(const Document& document, const std::string& pointer, Vec2 about_m,
                                 Angle clockwise);

/// Sets one number, such as "/trees/0/height_m". `value` is in the key's own unit.
[[nodiscard]] Command set_number(const Document& document, const std::string& pointer,
                                 double value);

/// `count` more of a thing behind it in the list, each `step_m` farther on, with ids of their own
/// and, where it has a name, names counted on: "Post", "Post 2", "Post 3".
[[nodiscard]] Command repeat_thing(const Document& document, const std::string& pointer, int count,
                                   Vec2 step_m);

/// Takes a thing away. Pots that stand on it stand nowhere then, unpinned, and no pot keeps away
/// from it any more.
[[nodiscard]] Command remove_thing(const Document& document, const std::string& pointer);

/// Gives a thing another id; pots that stand on it or keep away from it go along.
[[nodiscard]] Command rename_thing(const Document& document, const std::string& pointer,
                                   const std::string& id);

/// Puts a pot on a spot; an empty spot takes it off, and lifts its pin.
[[nodiscard]] Command place_pot(const Document& document, std::string_view pot_id,
                                std::string_view spot_id);

/// Pins a pot where it stands, or lifts its pin.
[[nodiscard]] Command pin_pot(const Document& document, std::string_view pot_id, bool is_pinned);

/// An id that nothing in the garden has, counted on from `like`: "P2" after "P1", "B" after "A".
[[nodiscard]] std::string free_id(const Document& document, std::string_view like);

}  // namespace sunfleck::document
