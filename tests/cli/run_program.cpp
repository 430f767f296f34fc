#include "cli/run_program.h"

#include <catch2/catch.hpp>
#include <sys/wait.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

namespace sunfleck::cli_test {
namespace {

std::string quoted(const std::string& word) {
    std::string text = "'";
    for (const char c : word) text += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return text + "'";
}

/// What the program under test answers, `before` it a command of the shell or nothing.
Answer answer_to(const std::string& before, const std::vector<std::string>& words,
                 const std::string& standard_input) {
    const ScratchFolder scratch;
    write_text(scratch.path("in"), standard_input);
    // No test finds what the machine's owner has left unkept.
    std::string line = "export XDG_STATE_HOME=" + quoted(scratch.path("state")) + "; " + before +
                       quoted(tested_program());
    for (const std::string& word : words) line += ' ' + quoted(word);
    line += " <" + quoted(scratch.path("in")) + " >" + quoted(scratch.path("out")) + " 2>" +
            quoted(scratch.path("err"));
    const int status = std::system(line.c_str());
    Answer answer;
    answer.code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    answer.out = read_text(scratch.path("out"));
    answer.err = read_text(scratch.path("err"));
    return answer;
}

}  // namespace

std::string tested_program() {
    const char* named = std::getenv("SUNFLECK_PROGRAM");
    return named != nullptr ? named : SUNFLECK_PROGRAM_BUILT;
}

std::string read_text(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

void write_text(const std::string& path, const std::string& text) {
    std::ofstream(path, std::ios::binary) << text;
}

Answer run_program(const std::vector<std::string>& words, const std::string& standard_input) {
    return answer_to("", words, standard_input);
}

Answer run_program_on_screen(const std::vector<std::string>& words, const std::string& folder) {
    // One at a time: two that look for a free number at once may find the same. What the graphics
    // driver leaks has no name any more once it is unloaded, so leaks are not looked for here.
    return answer_to("cd " + quoted(folder) +
                         " && ASAN_OPTIONS=detect_leaks=0 flock -o "
                         "\"${TMPDIR:-/tmp}/sunfleck-screen.lock\" xvfb-run -a "
                         "-s '-screen 0 1600x1000x24' ",
                     words, "");
}

Answer run_program_without_screen(const std::vector<std::string>& words) {
    return answer_to("env -u DISPLAY -u WAYLAND_DISPLAY ", words, "");
}

Answer run_program_in(const std::string& folder, const std::vector<std::string>& words) {
    return answer_to("cd " + quoted(folder) + " && ", words, "");
}

void check_wrong_calls(const std::vector<std::vector<std::string>>& calls) {
    for (const auto& call : calls) {
        CAPTURE(call);
        const Answer answer = run_program(call);
        CHECK(answer.code == 2);
        CHECK(answer.out.empty());
        CHECK_FALSE(answer.err.empty());
    }
}

std::size_t widest_line(const std::string& text) {
    std::size_t widest = 0;
    std::size_t width = 0;
    for (const char c : text) {
        if (c == '\n') {
            width = 0;
        } else if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) {
            widest = std::max(widest, ++width);
        }
    }
    return widest;
}

}  // namespace sunfleck::cli_test
