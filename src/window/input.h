#pragma once

#include "sunfleck/output/path.h"

#include <string>
#include <variant>

/// What a hand does, as the window tells it; the same from mouse, keyboard and script.
namespace sunfleck::window {

using output::SheetBox;
using output::SheetPoint;

/// Keys that do something by themselves; letters and digits come as Text.
enum class Key {
    left,
    right,
    up,
    down,
    enter,
    escape,
    tab,
    f2,
    f3,
    f4,
    f5,
    nearer,   ///< +
    farther,  ///< -
    whole,    ///< Ctrl+0: the whole garden
    redo,     ///< Ctrl+Shift+Z
    undo,     ///< Ctrl+Z
    keep,     ///< Ctrl+S
};

struct Held {
    bool shift = false;
    bool control = false;
    bool alt = false;
};

struct PointerMoved {
    SheetPoint at;
};
struct PointerPressed {
    SheetPoint at;
};
struct PointerReleased {
    SheetPoint at;
};
struct WheelTurned {
    SheetPoint at;
    double notches = 0.0;  ///< away from the hand positive
};
struct KeyPressed {
    Key key = Key::escape;
    Held held;
};
struct TextTyped {
    std::string text;  ///< UTF-8
};
struct Resized {
    double width = 0.0;  ///< logical pixels
    double height = 0.0;
};

using Input = std::variant<PointerMoved, PointerPressed, PointerReleased, WheelTurned, KeyPressed,
                           TextTyped, Resized>;

}  // namespace sunfleck::window
