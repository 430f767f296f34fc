#include "cli/commands.h"
#include "cli/parse_command_line.h"
#include "cli/terminal.h"
#include "sunfleck/output/check_report.h"
#include "sunfleck/output/envelope.h"

#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <exception>
#include <iostream>

namespace sunfleck::cli {
namespace {

volatile std::sig_atomic_t interrupt_count = 0;

void note_interrupt(int signal) {
    interrupt_count = interrupt_count + 1;
    if (interrupt_count > 1) {
        std::signal(signal, SIG_DFL);
        std::raise(signal);
    }
}

void report(const Arguments& arguments, const Problems& problems, Terminal& terminal) {
    if (wants_json(arguments)) {
        terminal.out << output::error_envelope(command_name(arguments), scene_path(arguments),
                                               problems);
        return;
    }
    for (const Problem& problem : problems) terminal.err << output::problem_text(problem);
}

int run_program(int argc, const char* const* argv) {
    const auto parsed = parse_command_line(argc, argv);
    if (const auto* end = std::get_if<ParseEnd>(&parsed)) {
        (end->code == ExitCode::done ? std::cout : std::cerr) << end->text;
        return static_cast<int>(end->code);
    }
    const auto& arguments = std::get<Arguments>(parsed);
    Terminal terminal{.in = std::cin,
                      .out = std::cout,
                      .err = std::cerr,
                      .err_is_screen = isatty(STDERR_FILENO) == 1,
                      .in_is_screen = isatty(STDIN_FILENO) == 1};
    const auto outcome =
        std::visit([&](const auto& chosen) { return run(chosen, terminal); }, arguments);
    auto code = ExitCode::done;
    if (!outcome) {
        if (!terminal.has_told_failure) report(arguments, outcome.error(), terminal);
        code = was_interrupted() ? ExitCode::interrupted : exit_code_of(outcome.error());
    }
    errno = 0;
    std::cout.flush();
    if (!std::cout && code == ExitCode::done) {
        // A reader that has seen enough ("| head") is no trouble worth a word.
        if (errno != EPIPE) std::cerr << "The answer could not be written to standard output.\n";
        code = ExitCode::file;
    }
    return static_cast<int>(code);
}

/// A waiting read ends when a signal comes, so that Ctrl-C is heard at a question, too.
void listen_for(int signal) {
    struct sigaction action {};
    action.sa_handler = note_interrupt;
    sigemptyset(&action.sa_mask);
    sigaction(signal, &action, nullptr);
}

}  // namespace

bool was_interrupted() {
    return interrupt_count > 0;
}

}  // namespace sunfleck::cli

int main(int argc, char** argv) {
    sunfleck::cli::listen_for(SIGINT);
    sunfleck::cli::listen_for(SIGTERM);
    std::signal(SIGPIPE, SIG_IGN);
    try {
        return sunfleck::cli::run_program(argc, argv);
    } catch (const std::exception& error) {
        std::cerr << "This is a fault in sunfleck, not in your file: " << error.what() << '\n';
        return static_cast<int>(sunfleck::cli::ExitCode::bug);
    }
}
