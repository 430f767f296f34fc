#include "window/script.h"

#include "base/scratch_folder.h"
#include "sunfleck/base/text_file.h"
#include "sunfleck/document/recovery.h"
#include "sunfleck/document/thing_edits.h"
#include "sunfleck/window/window.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <string>

using namespace sunfleck;
using namespace sunfleck::test;

namespace {

// Plays lines unseen over a demo garden.
Result<void> play(const ScratchFolder& folder, const std::string& scene, Date date,
                  const std::string& lines) {
    REQUIRE(save_text_file(folder / "story.txt", lines));
    return window::show_window({.scene = std::string(SUNFLECK_SCENES) + "/" + scene,
                                .today = date,
                                .minute = 720,
                                .script = folder / "story.txt",
                                .is_unseen = true,
                                .is_stopped = {}});
}

void check_played(const Result<void>& played) {
    if (!played) FAIL(to_text(played.error().front()));
    CHECK(played);
}

const Date june = make_date(2026, 6, 21);
const Date december = make_date(2026, 12, 21);

}  // namespace

TEST_CASE("a story of a July afternoon", "[window][story]") {
    const ScratchFolder folder;
    check_played(play(folder, "walled_yard.json", make_date(2026, 7, 10),
                      "# the hour that kills\n"
                      "wait\n"
                      "expect date 2026-07-10\n"
                      "drag arch 14:30\n"
                      "expect clock 14:30\n"
                      "click row 1\n"
                      "key Enter\n"
                      "expect open yes\n"
                      "wait\n"
                      "picture open.png\n"
                      "click back\n"
                      "expect open no\n"
                      "key Ctrl+Right\n"
                      "expect clock 14:45\n"
                      "click noon\n"
                      "expect clock 13:04\n"));
    const auto png = read_text_file(folder / "open.png");
    REQUIRE(png);
    CHECK(png->starts_with("\x89PNG"));
}

TEST_CASE("every demo garden is shown at every size", "[window][story]") {
    const ScratchFolder folder;
    for (const char* scene :
         {"walled_yard.json", "terrace_south.json", "hill_plot.json", "fifth_floor.json"}) {
        CAPTURE(scene);
        check_played(play(folder, scene, june,
                          "wait\n"
                          "picture one.png\n"
                          "size 1024x700\n"
                          "key Tab\n"
                          "key F5\n"
                          "wait\n"
                          "picture two.png\n"
                          "key Ctrl+Shift+Up\n"
                          "size 1920x1200\n"
                          "wheel ground 4\n"
                          "wait\n"
                          "picture three.png\n"));
    }
}

TEST_CASE("a southern garden through its year", "[window][story]") {
    const ScratchFolder folder;
    check_played(play(folder, "terrace_south.json", december,
                      "wait\n"
                      "drag strip 0 50\n"
                      "expect date 2026-01-01\n"
                      "drag strip 100 50\n"
                      "expect date 2026-12-31\n"
                      "click today\n"
                      "expect date 2026-12-21\n"
                      "wheel strip 1\n"
                      "expect date 2026-12-22\n"
                      "wheel ground 2\n"
                      "expect nearness 132 %\n"
                      "key Ctrl+Whole\n"
                      "expect nearness 100 %\n"));
}

TEST_CASE("a plan is asked for, taken, taken back and kept by nobody", "[window][story]") {
    const ScratchFolder folder;
    check_played(play(folder, "hill_plot.json", june,
                      "type 2\n"
                      "expect stone plan\n"
                      "expect season midsummer\n"
                      "wait\n"
                      "picture asked.png\n"
                      "click season\n"
                      "expect season late_summer\n"
                      "wait\n"
                      "wait\n"
                      "key Enter\n"
                      "wait\n"
                      "expect moves 0\n"
                      "picture taken.png\n"
                      "expect kept no\n"
                      "key Ctrl+Z\n"
                      "expect kept yes\n"
                      "expect undo none\n"
                      "type 1\n"
                      "expect stone sun\n"));
}

TEST_CASE("changes that were not kept are offered again, and kept ones are not",
          "[window][story]") {
    const ScratchFolder folder;
    const auto garden = folder / "garden.json";
    const auto text = read_text_file(std::string(SUNFLECK_SCENES) + "/hill_plot.json");
    REQUIRE(text);
    REQUIRE(save_text_file(garden, *text));
    double clock_s = 1.78e9;
    const auto session = [&](const std::string& name, const std::string& lines) {
        REQUIRE(save_text_file(folder / "story.txt", lines));
        return window::show_window(
            {.scene = garden,
             .today = june,
             .script = folder / "story.txt",
             .is_unseen = true,
             .recovery_folder = folder / "state",
             .session = name,
             .is_session_running = [](const std::string&) { return false; },
             .now = [&clock_s] { return UtcSeconds::since_1970(clock_s += 0.1); },
             .is_stopped = {}});
    };
    check_played(session("1", "expect found no\ntype 2\nwait\nkey Enter\nexpect kept no\n"));
    CHECK(*read_text_file(garden) == *text);
    // Left alone they are offered to the next one, too.
    check_played(session("2", "expect found yes\npicture found.png\n"));
    check_played(session("3",
                         "expect found yes\nclick take found\nexpect found no\nexpect kept no\n"
                         "expect undo Take the changes found\ntype 2\nwait\nexpect moves 0\n"
                         "key Ctrl+S\nexpect kept yes\nwait\n"));
    CHECK(*read_text_file(garden) != *text);
    check_played(session("4", "expect found no\nexpect kept yes\n"));
    CHECK(std::filesystem::is_empty(folder / "state"));
}

TEST_CASE("found changes that are left are not offered again", "[window][story]") {
    const ScratchFolder folder;
    const auto garden = folder / "garden.json";
    const auto text = read_text_file(std::string(SUNFLECK_SCENES) + "/fifth_floor.json");
    REQUIRE(text);
    REQUIRE(save_text_file(garden, *text));
    const document::RecoveryFolder state(folder / "state");
    auto worked_on = document::Document::open(garden);
    REQUIRE(worked_on);
    REQUIRE(worked_on->apply(document::move_thing(*worked_on, "/benches/0", {0.01, 0.0})));
    REQUIRE(state.save(*worked_on, "77", UtcSeconds::since_1970(1.78e9)));
    const auto session = [&](bool is_running, const std::string& lines) {
        REQUIRE(save_text_file(folder / "story.txt", lines));
        return window::show_window(
            {.scene = garden,
             .today = june,
             .script = folder / "story.txt",
             .is_unseen = true,
             .recovery_folder = folder / "state",
             .session = "78",
             .is_session_running = [&](const std::string&) { return is_running; },
             .now = [] { return UtcSeconds::since_1970(1.79e9); },
             .is_stopped = {}});
    };
    check_played(session(true, "expect found no\n"));  // another window works on it
    check_played(session(false, "expect found yes\nclick leave found\nexpect found no\nwait\n"));
    check_played(session(false, "expect found no\nexpect kept yes\n"));
    CHECK(*read_text_file(garden) == *text);
}

TEST_CASE("a line that does not hold is told by its number", "[window][story]") {
    const ScratchFolder folder;
    for (const char* line :
         {"expect clock 03:33", "click nothing", "key Nonsense", "jump", "drag arch noon",
          "drag strip a b", "size big", "wheel moon 2", "expect weather fine", "click spot Z-99"}) {
        const auto played =
            play(folder, "fifth_floor.json", june, std::string("wait\n\n") + line + "\n");
        CAPTURE(line);
        REQUIRE_FALSE(played);
        CHECK(played.error().front().line == 3);
        CHECK(played.error().front().code == "script_line");
        CHECK_FALSE(played.error().front().message.empty());
    }
}

TEST_CASE("a scene that cannot be read opens no window", "[window][property]") {
    const ScratchFolder folder;
    REQUIRE(save_text_file(folder / "broken.json", "{"));
    const auto shown = window::show_window({.scene = folder / "broken.json",
                                            .today = june,
                                            .script = {},
                                            .is_unseen = true,
                                            .is_stopped = {}});
    REQUIRE_FALSE(shown);
    CHECK(shown.error().front().line == 1);
}
