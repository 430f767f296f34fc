// Ctrl-C in the middle of a command: exit code 130, nothing half written, nothing left behind.
#include "cli/run_program.h"

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <filesystem>
#include <string>
#include <thread>
#include <vector>

using namespace sunfleck::cli_test;

namespace {

/// Starts the built program, sends it SIGINT after so many milliseconds, and waits for its end.
class Interrupted {
  public:
    Interrupted(std::vector<std::string> words, int after_ms, const ScratchFolder& scratch) {
        const std::string out = scratch.path("stdout");
        const std::string err = scratch.path("stderr");
        words.insert(words.begin(), tested_program());
        std::vector<char*> argv;
        for (std::string& word : words) argv.push_back(word.data());
        argv.push_back(nullptr);
        const pid_t child = fork();
        if (child == 0) {
            dup2(open(out.c_str(), O_CREAT | O_WRONLY | O_TRUNC, 0600), STDOUT_FILENO);
            dup2(open(err.c_str(), O_CREAT | O_WRONLY | O_TRUNC, 0600), STDERR_FILENO);
            execv(argv[0], argv.data());
            _exit(99);
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(after_ms));
        kill(child, SIGINT);
        int status = 0;
        waitpid(child, &status, 0);
        answer_.code = WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
        answer_.out = read_text(out);
        answer_.err = read_text(err);
        std::filesystem::remove(out);
        std::filesystem::remove(err);
    }

    [[nodiscard]] const Answer& answer() const { return answer_; }

  private:
    Answer answer_;
};

const std::string garden = SUNFLECK_SCENES "/terrace_south.json";

}  // namespace

TEST_CASE("an interrupted command ends with 130 and leaves no half file", "[cli]") {
    const ScratchFolder scratch;
    const std::string written = scratch.path("planned.json");
    const std::string picture = scratch.path("plan.svg");
    const std::vector<std::vector<std::string>> calls = {
        {"place", garden, "--season", "midsummer", "--write", written, "--picture", picture},
        {"moves", garden, "--from", "midsummer", "--to", "autumn", "--write", written},
        {"exposure", garden, "--from", "2026-01-01", "--to", "2026-12-31", "--picture", picture},
        {"picture", garden, "--spot", "F-1", "--output", picture},
    };
    // Early ones meet the reading of the scene, later ones the sun, the plan or the writing.
    int interrupted = 0;
    for (const auto& call : calls) {
        for (const int after_ms : {40, 120, 400, 1200}) {
            CAPTURE(call, after_ms);
            const Interrupted run(call, after_ms, scratch);
            const Answer& answer = run.answer();
            CAPTURE(answer.err, answer.out.substr(0, 200));
            // A quick machine may be done before the signal comes, a slow one not yet listening.
            REQUIRE((answer.code == 130 || answer.code == 0 || answer.code == -SIGINT));
            if (answer.code != 0) {
                interrupted += answer.code == 130 ? 1 : 0;
                CHECK(answer.out.empty());
                CHECK(scratch.file_count() == 0);
            } else {
                CHECK(scratch.file_count() > 0);
            }
            for (const auto& file : {written, picture}) std::filesystem::remove(file);
            REQUIRE(scratch.file_count() == 0);
        }
    }
    CHECK(interrupted > 0);
}

TEST_CASE("an interrupted command leaves the file that was there", "[cli]") {
    const ScratchFolder scratch;
    const std::string picture = scratch.path("plan.svg");
    int stopped = 0;
    for (const int after_ms : {2, 20, 60, 200}) {
        CAPTURE(after_ms);
        write_text(picture, "what was there");
        const Interrupted run({"exposure", garden, "--from", "2026-01-01", "--to", "2026-12-31",
                               "--picture", picture},
                              after_ms, scratch);
        CHECK(scratch.file_count() == 1);
        if (run.answer().code == 0) continue;
        ++stopped;
        CHECK(run.answer().out.empty());
        CHECK(read_text(picture) == "what was there");
    }
    CHECK(stopped > 0);
}
