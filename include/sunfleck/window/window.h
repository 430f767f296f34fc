#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/problem.h"
#include "sunfleck/base/units.h"

#include <filesystem>
#include <functional>
#include <optional>
#include <string>

/// The window: sky above, ground in the middle, page beside it, path below.
namespace sunfleck::window {

struct WindowOptions {
    std::filesystem::path scene;
    /// The day that the window opens on and that "Today" means, with the minute of its day.
    Date today;
    int minute = 720;
    double scale = 1.0;  ///< device pixels to a pixel of the look, 1 to 2.5
    double width = 1280.0;
    double height = 800.0;
    /// A file of script lines that is played in place of a hand; then the window closes.
    std::filesystem::path script;
    /// The script is played without a screen; its pictures are drawn all the same.
    bool is_unseen = false;
    /// Where gardens with changes that are not kept are saved as they change, and under which
    /// name; empty: nowhere. See document::RecoveryFolder.
    std::filesystem::path recovery_folder;
    std::string session;
    std::function<bool(const std::string& session)> is_session_running;
    std::function<UtcSeconds()> now;  ///< needed with a recovery folder
    /// Stops the window when it gives true, such as after a signal.
    std::function<bool()> is_stopped;
};

/// Opens the window and stays until it is closed. Fails when the scene cannot be read, there is no
/// screen, or a line of the script does not hold; the problem names the script's line.
[[nodiscard]] Result<void> show_window(const WindowOptions& options);

}  // namespace sunfleck::window
