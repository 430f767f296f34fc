#include "cli/run_program.h"

#include <catch2/catch.hpp>

using namespace sunfleck::cli_test;

namespace {

const std::string balcony = SUNFLECK_SCENES "/fifth_floor.json";

}  // namespace

TEST_CASE("the window opens on a screen and is played by a script", "[cli][window]") {
    // Xvfb draws by software, as a machine without a graphics card does.
    const ScratchFolder folder;
    write_text(folder.path("story.txt"),
               "wait\nkey Tab\nexpect clock 12:00\nkey Ctrl+Right\nwait\npicture seen.png\n");
    const Answer answer = run_program_on_screen(
        {"window", balcony, "--date", "2026-06-21", "--script", folder.path("story.txt")});
    CAPTURE(answer.out, answer.err);
    CHECK(answer.code == 0);
    CHECK(answer.err.empty());
    CHECK(read_text(folder.path("seen.png")).size() > 20000);
}

TEST_CASE("a script's line that does not hold ends the window", "[cli][window]") {
    const ScratchFolder folder;
    write_text(folder.path("story.txt"), "expect clock 04:44\n");
    const Answer answer = run_program_on_screen(
        {"window", balcony, "--date", "2026-06-21", "--script", folder.path("story.txt")});
    CHECK(answer.code == 3);
    CHECK(answer.err.find("story.txt:1") != std::string::npos);
}

TEST_CASE("without a screen the window says so in one sentence", "[cli][window]") {
    const Answer answer = run_program_without_screen({"window", balcony});
    CHECK(answer.code == 5);
    CHECK(answer.out.empty());
    CHECK(answer.err.find("no screen") != std::string::npos);
}

TEST_CASE("a window that cannot be opened as asked is refused", "[cli][window]") {
    CHECK(run_program_without_screen({"window", balcony, "--size", "big"}).code == 2);
    CHECK(run_program_without_screen({"window", balcony, "--size", "20x20"}).code == 2);
    CHECK(run_program_without_screen({"window", balcony, "--scale", "9"}).code == 2);
    CHECK(run_program_without_screen({"window", "missing.json"}).code == 4);
    CHECK(run_program_without_screen({"window", balcony, "--script", "missing.txt"}).code == 4);
}
