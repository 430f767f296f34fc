#include "cli/commands.h"
#include "sunfleck/window/window.h"

#include <signal.h>
#include <unistd.h>

#include <cerrno>
#include <charconv>
#include <chrono>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <optional>
#include <string>
#include <utility>

namespace sunfleck::cli {
namespace {

constexpr double least_side = 300.0;
constexpr double most_side = 10000.0;

std::optional<std::pair<double, double>> size_of(const std::string& text) {
    int width = 0;
    int height = 0;
    const char* const end = text.data() + text.size();
    const auto [cross, error] = std::from_chars(text.data(), end, width);
    if (error != std::errc{} || cross == end || *cross != 'x') return std::nullopt;
    const auto [last, other_error] = std::from_chars(cross + 1, end, height);
    if (other_error != std::errc{} || last != end) return std::nullopt;
    const auto is_right = [](double side) { return side >= least_side && side <= most_side; };
    if (!is_right(width) || !is_right(height)) return std::nullopt;
    return std::pair<double, double>{width, height};
}

// The date and the minute that this machine's clock shows.
std::pair<Date, int> now() {
    const std::time_t seconds =
        std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
    std::tm local{};
    localtime_r(&seconds, &local);
    return {make_date(local.tm_year + 1900, static_cast<unsigned>(local.tm_mon + 1),
                      static_cast<unsigned>(local.tm_mday)),
            60 * local.tm_hour + local.tm_min};
}

// Where programs keep what must outlast them but is no setting (XDG Base Directory Specification).
std::filesystem::path recovery_folder() {
    if (const char* state = std::getenv("XDG_STATE_HOME"); state != nullptr && *state == '/') {
        return std::filesystem::path(state) / "sunfleck" / "recovery";
    }
    if (const char* home = std::getenv("HOME"); home != nullptr && *home == '/') {
        return std::filesystem::path(home) / ".local" / "state" / "sunfleck" / "recovery";
    }
    return {};
}

// A session is named by its process.
bool is_session_running(const std::string& session) {
    pid_t process = 0;
    const char* const end = session.data() + session.size();
    const auto [last, error] = std::from_chars(session.data(), end, process);
    if (error != std::errc{} || last != end || process <= 0) return false;
    return ::kill(process, 0) == 0 || errno == EPERM;
}

UtcSeconds instant_now() {
    return UtcSeconds::since_1970(
        std::chrono::duration<double>(std::chrono::system_clock::now().time_since_epoch()).count());
}

}  // namespace

Result<void> run(const WindowArguments& arguments, Terminal&) {
    const auto [today, minute] = now();
    window::WindowOptions options{.scene = arguments.scene,
                                  .today = arguments.date.value_or(today),
                                  .minute = arguments.date ? 12 * 60 : minute,
                                  .scale = arguments.scale,
                                  .script = arguments.script,
                                  .is_unseen = arguments.unseen,
                                  .recovery_folder = recovery_folder(),
                                  .session = std::to_string(::getpid()),
                                  .is_session_running = is_session_running,
                                  .now = instant_now,
                                  .is_stopped = was_interrupted};
    if (!arguments.size.empty()) {
        const auto size = size_of(arguments.size);
        if (!size) {
            return failure({.kind = ProblemKind::usage,
                            .code = "size_not_understood",
                            .message = "The size " + arguments.size + " is no width and height.",
                            .mend = "Write it as 1280x800, each from 300 to 10000."});
        }
        options.width = size->first;
        options.height = size->second;
    }
    return window::show_window(options);
}

}  // namespace sunfleck::cli
