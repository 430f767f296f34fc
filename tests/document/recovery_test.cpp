#include "sunfleck/document/recovery.h"

#include "base/scratch_folder.h"
#include "document/small_document.h"
#include "sunfleck/base/text_file.h"
#include "sunfleck/document/thing_edits.h"

#include <catch2/catch.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <random>
#include <string>
#include <thread>
#include <vector>

using namespace sunfleck;
using namespace sunfleck::test;
using document::Document;
using document::RecoveryFolder;

namespace {

const UtcSeconds morning = UtcSeconds::since_1970(1.78e9);

}  // namespace

TEST_CASE("what was not kept is found again, the newest first", "[document][property]") {
    const ScratchFolder folder;
    const RecoveryFolder recovery(folder / "recovery");
    Document one = small_document();
    Document other = small_document();
    REQUIRE(other.keep_as(folder / "yard.json"));
    run(other, document::move_thing(other, "/benches/0", {0.5, 0.0}));
    REQUIRE(recovery.save(one, "100-1", morning));
    REQUIRE(recovery.save(other, "100-2", morning.plus_seconds(60.0)));
    const auto found = recovery.found();
    REQUIRE(found.size() == 2);
    CHECK(found[0].session == "100-2");
    CHECK(found[0].garden == folder / "yard.json");
    CHECK(found[0].text == other.text());
    CHECK(found[0].saved == morning.plus_seconds(60.0));
    CHECK(found[1].session == "100-1");
    CHECK(found[1].garden.empty());
    CHECK(found[1].text == one.text());
    const auto running = [](const std::string& session) { return session == "100-2"; };
    CHECK(recovery.found(running).size() == 1);
    recovery.forget("100-1");
    CHECK(recovery.found(running).empty());
}

TEST_CASE("a garden that is kept leaves no record", "[document][property]") {
    const ScratchFolder folder;
    const RecoveryFolder recovery(folder / "recovery");
    Document document = small_document();
    REQUIRE(document.keep_as(folder / "yard.json"));
    run(document, document::move_thing(document, "/benches/0", {0.5, 0.0}));
    REQUIRE(recovery.save(document, "7", morning));
    CHECK(recovery.found().size() == 1);
    REQUIRE(document.keep());
    CHECK(recovery.found().empty());  // the record's text is what was kept
    REQUIRE(recovery.save(document, "7", morning));
    CHECK_FALSE(std::filesystem::exists(folder / "recovery" / "7.json"));
}

TEST_CASE("records that cannot be read do no harm", "[document][property]") {
    const ScratchFolder folder;
    const RecoveryFolder recovery(folder / "recovery");
    CHECK(recovery.found().empty());
    REQUIRE(recovery.save(small_document(), "7", morning));
    for (const char* text : {"", "{", "[]", "{\"format\": \"other\"}",
                             "{\"format\": \"sunfleck-recovery\", \"text\": 7}"}) {
        REQUIRE(save_text_file(folder / "recovery" / "8.json", text));
        CHECK(recovery.found().size() == 1);
    }
}

TEST_CASE("a program killed while it works is recovered to its last save", "[document][property]") {
    const ScratchFolder folder;
    const RecoveryFolder recovery(folder / "recovery");
    const auto path = folder / "yard.json";
    Document document = small_document();
    REQUIRE(document.keep_as(path));
    const std::string kept = document.text();
    std::vector<std::string> texts;
    for (int i = 0; i < 8; ++i) {
        run(document, document::move_thing(document, "/benches/0", {0.01, 0.0}));
        texts.push_back(document.text());
    }
    std::mt19937 bits(3);
    const auto record = folder / "recovery" / "9.json";
    int recovered = 0;
    for (int i = 0; i < 25; ++i) {
        recovery.forget("9");
        const pid_t child = ::fork();
        REQUIRE(child >= 0);
        if (child == 0) {
            Document own = std::move(*Document::open(path));
            for (int k = 0;; ++k) {
                const auto moved = own.apply(document::move_thing(own, "/benches/0", {0.01, 0.0}));
                const auto saved = recovery.save(own, "9", morning.plus_seconds(k));
                if (!moved || !saved || k == 7) ::pause();
            }
        }
        // Every other time not before the first save is there, however slow the machine.
        const bool waits = i % 2 == 1;
        for (int wait = 0; waits && !std::filesystem::exists(record) && wait < 20000; ++wait) {
            std::this_thread::sleep_for(std::chrono::milliseconds(1));
        }
        std::this_thread::sleep_for(std::chrono::microseconds(bits() % 30000U));
        ::kill(child, SIGKILL);
        int status = 0;
        REQUIRE(::waitpid(child, &status, 0) == child);
        CHECK(*read_text_file(path) == kept);
        const auto found = recovery.found();
        REQUIRE(found.size() <= 1);
        if (found.empty()) continue;
        ++recovered;
        CHECK(std::find(texts.begin(), texts.end(), found[0].text) != texts.end());
        CHECK(Document::from_text(found[0].text, found[0].garden));
    }
    CHECK(recovered >= 12);
}
