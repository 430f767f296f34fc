#pragma once

#include "sunfleck/base/problem.h"

#include <iosfwd>
#include <string>

namespace sunfleck::cli {

/// Exit codes of the program; listed in README.
enum class ExitCode {
    done = 0,
    bug = 1,
    usage = 2,
    bad_input = 3,
    file = 4,
    no_answer = 5,
    interrupted = 130,
};

/// Where a command reads and writes. Answers go to `out`, progress and warnings to `err`.
struct Terminal {
    std::istream& in;
    std::ostream& out;
    std::ostream& err;
    bool has_told_failure = false;  ///< the command wrote its own answer about its failure
    bool err_is_screen = false;     ///< progress lines only when a person watches
    bool in_is_screen = false;      ///< questions only when a person can answer
};

/// The exit code that a failure means: the gravest of its problems.
[[nodiscard]] ExitCode exit_code_of(const Problems& problems);

/// Set by the signal handler; a command's progress callback stops when it is true.
[[nodiscard]] bool was_interrupted();

/// Fails when the user has stopped the program. A command asks it when all is computed, before it
/// writes anything.
[[nodiscard]] Result<void> ready_to_write();

}  // namespace sunfleck::cli
