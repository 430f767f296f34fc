#include "cli/terminal.h"

#include <algorithm>

namespace sunfleck::cli {
namespace {

ExitCode exit_code_of(const Problem& problem) {
    if (problem.code == "interrupted") return ExitCode::interrupted;
    switch (problem.kind) {
        case ProblemKind::usage:
            return ExitCode::usage;
        case ProblemKind::input:
            return ExitCode::bad_input;
        case ProblemKind::file:
            return ExitCode::file;
        case ProblemKind::no_answer:
            return ExitCode::no_answer;
    }
    return ExitCode::bug;
}

}  // namespace

ExitCode exit_code_of(const Problems& problems) {
    auto code = ExitCode::done;
    for (const Problem& problem : problems) code = std::max(code, exit_code_of(problem));
    return problems.empty() ? ExitCode::bug : code;
}

}  // namespace sunfleck::cli
