#pragma once

#include "cli/command_line.h"
#include "cli/terminal.h"

/// One function per command, each in <command>_command.cpp. A failed Result is reported by the
/// caller (as text on standard error, or as the JSON envelope's `errors` when JSON was asked).
namespace sunfleck::cli {

[[nodiscard]] Result<void> run(const CheckArguments& arguments, Terminal& terminal);
[[nodiscard]] Result<void> run(const NewArguments& arguments, Terminal& terminal);
[[nodiscard]] Result<void> run(const SunArguments& arguments, Terminal& terminal);
[[nodiscard]] Result<void> run(const PictureArguments& arguments, Terminal& terminal);
[[nodiscard]] Result<void> run(const ExposureArguments& arguments, Terminal& terminal);
[[nodiscard]] Result<void> run(const PlaceArguments& arguments, Terminal& terminal);
[[nodiscard]] Result<void> run(const MovesArguments& arguments, Terminal& terminal);
[[nodiscard]] Result<void> run(const WhyArguments& arguments, Terminal& terminal);
[[nodiscard]] Result<void> run(const SchemaArguments& arguments, Terminal& terminal);
[[nodiscard]] Result<void> run(const WindowArguments& arguments, Terminal& terminal);

}  // namespace sunfleck::cli
