#pragma once

#include "cli/terminal.h"
#include "sunfleck/exposure/exposure.h"

namespace sunfleck::cli {

/// Says how far following the sun has come while a person watches, and ends it on Ctrl-C.
class ScreenProgress {
  public:
    explicit ScreenProgress(Terminal& terminal) : terminal_(&terminal) {}
    ~ScreenProgress();
    ScreenProgress(const ScreenProgress&) = delete;
    ScreenProgress& operator=(const ScreenProgress&) = delete;

    /// Shows the share done; false when the work was interrupted.
    bool operator()(double share);
    /// The same as a callback, which must not outlive this.
    [[nodiscard]] exposure::Progress callback();

  private:
    Terminal* terminal_;
    int shown_percent_ = -1;
};

}  // namespace sunfleck::cli
