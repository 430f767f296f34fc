#pragma once

#include "base/scratch_folder.h"

#include <string>
#include <vector>

namespace sunfleck::cli_test {

/// What the built program answered.
struct Answer {
    int code = -1;  ///< exit code; 128 + signal when it was killed
    std::string out;
    std::string err;
};

/// The program under test: the one that SUNFLECK_PROGRAM names, else the one built.
[[nodiscard]] std::string tested_program();

/// Runs the program under test with these words.
[[nodiscard]] Answer run_program(const std::vector<std::string>& words,
                                 const std::string& standard_input = {});

using test::ScratchFolder;

/// The same from within a folder, so that relative names mean files there.
[[nodiscard]] Answer run_program_in(const std::string& folder,
                                    const std::vector<std::string>& words);

/// The same on a screen of its own in memory, from within a folder, and without any screen.
[[nodiscard]] Answer run_program_on_screen(const std::vector<std::string>& words,
                                           const std::string& folder = ".");
[[nodiscard]] Answer run_program_without_screen(const std::vector<std::string>& words);

/// Checks that each call is refused as wrong usage: exit code 2, told on standard error alone.
void check_wrong_calls(const std::vector<std::vector<std::string>>& calls);

[[nodiscard]] std::string read_text(const std::string& path);
void write_text(const std::string& path, const std::string& text);

/// The longest line in characters, not bytes.
[[nodiscard]] std::size_t widest_line(const std::string& text);

}  // namespace sunfleck::cli_test
