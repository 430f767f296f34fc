#pragma once

#include "sunfleck/base/problem.h"
#include "window/answer_desk.h"
#include "window/view_model.h"

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace sunfleck::window {

/// Plays lines as a hand would, through the same input:
///
///   key NAME              a key: Left, Ctrl+Right, Ctrl+Shift+Up, Enter, Esc, Tab, F2 ...
///   type TEXT             letters and digits
///   click NAME            a button or row by its name in targets.h, or "spot A-3"
///   drag arch 6:00        the plumb line to a clock hour
///   drag strip 21 Jun 9:00   the flag to a date and an hour
///   wheel REGION N        notches over sky, strip, page or ground
///   size WxH              the window's size
///   wait                  until nothing is being computed
///   expect clock 14:30    also: date 2026-06-21, chosen A-3 (or none), open yes, rows N,
///                         kept yes, first A-3 (of the list), nearness 100 %,
///                         season midsummer, moves N, undo NAME, stone plan,
///                         found yes
///   picture FILE          the whole window as PNG, beside the script
///
/// Empty lines and those that begin with '#' say nothing.
class Script {
  public:
    [[nodiscard]] static Result<Script> read(const std::filesystem::path& path);

    [[nodiscard]] bool is_done() const { return next_ >= lines_.size(); }
    /// Plays the next line; a wait stays until it is over. Fails with the line's number where it
    /// is not understood or does not hold.
    [[nodiscard]] Result<void> play_next(ViewModel& view, AnswerDesk& desk, double scale);

  private:
    struct Line {
        int number = 0;
        std::vector<std::string> words;
    };
    [[nodiscard]] tl::unexpected<Problems> trouble(const Line& line, std::string message) const;
    [[nodiscard]] Result<void> play_pointer(const Line& line, ViewModel& view) const;
    [[nodiscard]] Result<void> play(const Line& line, ViewModel& view, AnswerDesk& desk,
                                    double scale);

    std::filesystem::path path_;
    std::vector<Line> lines_;
    std::size_t next_ = 0;
};

}  // namespace sunfleck::window
