#pragma once

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

/// A new empty folder, removed with all in it at the end of its life.
class ScratchFolder {
  public:
    ScratchFolder();
    ~ScratchFolder();
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;
    [[nodiscard]] std::string path(const std::string& name) const { return folder_ + "/" + name; }

  private:
    std::string folder_;
};

[[nodiscard]] std::string read_text(const std::string& path);
void write_text(const std::string& path, const std::string& text);

/// The longest line in characters, not bytes.
[[nodiscard]] std::size_t widest_line(const std::string& text);

}  // namespace sunfleck::cli_test
