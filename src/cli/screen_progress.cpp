#include "cli/screen_progress.h"

#include <cmath>
#include <ostream>

namespace sunfleck::cli {

Result<void> ready_to_write() {
    if (!was_interrupted()) return {};
    return failure({.kind = ProblemKind::no_answer,
                    .code = "interrupted",
                    .message = "The work was stopped before it was done.",
                    .mend = "Run it again to the end."});
}

ScreenProgress::~ScreenProgress() {
    if (shown_percent_ >= 0) terminal_->err << "\r\x1b[K" << std::flush;
}

bool ScreenProgress::operator()(double share) {
    if (was_interrupted()) return false;
    const int percent = static_cast<int>(std::floor(100.0 * share));
    if (terminal_->err_is_screen && percent > shown_percent_) {
        shown_percent_ = percent;
        terminal_->err << "\rFollowing the sun, " << percent << " %" << std::flush;
    }
    return true;
}

exposure::Progress ScreenProgress::callback() {
    return [this](double share) { return (*this)(share); };
}

}  // namespace sunfleck::cli
