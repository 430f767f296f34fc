#pragma once

#include "sunfleck/base/problem.h"
#include "window/input.h"
#include "window/pictures.h"

#include <memory>
#include <string>
#include <vector>

namespace sunfleck::window {

/// A window of the desktop: its pictures and what a hand does in it.
class Screen {
  public:
    /// Fails with one clear line when there is no screen.
    [[nodiscard]] static Result<std::unique_ptr<Screen>> open(const std::string& title,
                                                              double width, double height,
                                                              double scale);
    virtual ~Screen() = default;

    /// What was done since the last time; empty after `patience_s` without anything.
    [[nodiscard]] virtual std::vector<Input> inputs(double patience_s) = 0;
    [[nodiscard]] virtual bool is_closed() const = 0;
    /// Shows the parts as they are now.
    virtual void show(Pictures& pictures) = 0;
};

}  // namespace sunfleck::window
