#pragma once

#include "cli/command_line.h"
#include "cli/terminal.h"

#include <string>
#include <variant>

namespace sunfleck::cli {

/// Nothing to run: help or version was asked for, or the words make no sense.
struct ParseEnd {
    ExitCode code = ExitCode::done;
    std::string text;  ///< for standard output when `code` is done, else for standard error
};

/// The name of the command that arguments belong to, such as "exposure".
[[nodiscard]] std::string command_name(const Arguments& arguments);
/// Whether the answer, and so the failure too, is asked for as JSON.
[[nodiscard]] bool wants_json(const Arguments& arguments);
/// The scene's path; empty when the command reads none.
[[nodiscard]] std::string scene_path(const Arguments& arguments);

/// Turns the words of the command line into one command's arguments.
[[nodiscard]] std::variant<Arguments, ParseEnd> parse_command_line(int argc,
                                                                   const char* const* argv);

}  // namespace sunfleck::cli
