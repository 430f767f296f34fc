#include "sunfleck/base/text_file.h"

#include "base/scratch_folder.h"

#include <catch2/catch.hpp>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <random>
#include <string>
#include <thread>
#include <vector>

using namespace sunfleck;
using sunfleck::test::ScratchFolder;
namespace fs = std::filesystem;

namespace {

std::string content(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

mode_t permissions(const fs::path& path) {
    struct stat status {};
    REQUIRE(::stat(path.c_str(), &status) == 0);
    return status.st_mode & 07777;
}

/// Saves old and new text in turn, as fast as it can, until it is killed.
[[noreturn]] void save_for_ever(const fs::path& path, const std::string& one,
                                const std::string& other) {
    while (true) {
        if (!save_text_file(path, one) || !save_text_file(path, other)) ::_exit(1);
    }
}

}  // namespace

TEST_CASE("what is saved is read back byte for byte", "[base][property]") {
    const ScratchFolder folder;
    const std::string text("a\r\n\0\xFF", 5);
    REQUIRE(save_text_file(folder / "s.json", text));
    CHECK(read_text_file(folder / "s.json") == text);
    REQUIRE(save_text_file(folder / "s.json", ""));
    CHECK(read_text_file(folder / "s.json") == std::string());
    CHECK(folder.file_count() == 1);
}

TEST_CASE("saving keeps permissions and links", "[base][property]") {
    const ScratchFolder folder;
    const fs::path real = folder / "real.json";
    REQUIRE(save_text_file(real, "old"));
    REQUIRE(::chmod(real.c_str(), 0640) == 0);
    fs::create_symlink("real.json", folder / "link.json");
    REQUIRE(save_text_file(folder / "link.json", "new"));
    CHECK(content(real) == "new");
    CHECK(permissions(real) == 0640);
    CHECK(fs::is_symlink(folder / "link.json"));
    CHECK(folder.file_count() == 2);
}

TEST_CASE("a file that can't be read is a problem of kind file", "[base][property]") {
    const ScratchFolder folder;
    const fs::path pipe = folder / "pipe";
    REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
    for (const fs::path& path : {folder / "none.json", folder / "", pipe, fs::path("/dev/zero"),
                                 fs::path(), folder / "pipe/x"}) {
        CAPTURE(path);
        const auto text = read_text_file(path);
        REQUIRE_FALSE(text);
        REQUIRE(text.error().size() == 1);
        CHECK(text.error()[0].kind == ProblemKind::file);
        CHECK(text.error()[0].file == path.string());
        CHECK_FALSE(text.error()[0].message.empty());
    }
}

TEST_CASE("a folder in a file's place is called one", "[base][property]") {
    const ScratchFolder folder;
    fs::create_directory(folder / "yard.json");
    const auto read = read_text_file(folder / "yard.json");
    REQUIRE_FALSE(read);
    CHECK(read.error()[0].message == "This is a folder.");
    const auto saved = save_text_file(folder / "yard.json", "text");
    REQUIRE_FALSE(saved);
    CHECK(saved.error()[0].message == "This is a folder.");
}

TEST_CASE("a file that can't be saved is told and left alone", "[base][property]") {
    const ScratchFolder folder;
    REQUIRE(fs::create_directory(folder / "sub"));
    for (const fs::path& path : {folder / "no/such/s.json", folder / "sub", folder / "",
                                 fs::path("/proc/s.json"), fs::path()}) {
        CAPTURE(path);
        const auto saved = save_text_file(path, "text");
        REQUIRE_FALSE(saved);
        CHECK(saved.error()[0].kind == ProblemKind::file);
        CHECK(saved.error()[0].code == "file_not_saved");
    }
    CHECK(fs::is_directory(folder / "sub"));
    CHECK(folder.file_count() == 1);
}

TEST_CASE("a full disk leaves the old file", "[base][property]") {
    const ScratchFolder folder;
    REQUIRE(save_text_file(folder / "s.json", "old"));
    // A limit on file size stops the write half way, as a full disk does.
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        ::signal(SIGXFSZ, SIG_IGN);
        const rlimit most{1000, 1000};
        ::setrlimit(RLIMIT_FSIZE, &most);
        const auto saved = save_text_file(folder / "s.json", std::string(100000, 'x'));
        ::_exit(!saved && saved.error()[0].code == "file_not_saved" ? 0 : 1);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 0);
    CHECK(content(folder / "s.json") == "old");
    CHECK(folder.file_count() == 1);
}

TEST_CASE("a saver killed at any moment leaves the old file or the new one", "[base][property]") {
    const ScratchFolder folder;
    const fs::path path = folder / "garden.json";
    const std::string one(300000, '1');
    const std::string other(200000, '2');
    REQUIRE(save_text_file(path, one));
    std::mt19937 bits(1);
    int kills = 0;
    for (int i = 0; i < 60; ++i) {
        const pid_t child = ::fork();
        REQUIRE(child >= 0);
        if (child == 0) save_for_ever(path, one, other);
        std::this_thread::sleep_for(std::chrono::microseconds(bits() % 8000U));
        ::kill(child, SIGKILL);
        int status = 0;
        REQUIRE(::waitpid(child, &status, 0) == child);
        kills += WIFSIGNALED(status) ? 1 : 0;
        const std::string found = content(path);
        CHECK((found == one || found == other));
    }
    CHECK(kills == 60);
    REQUIRE(save_text_file(path, "after"));
    CHECK(content(path) == "after");
    CHECK(folder.file_count() == 1);
}

TEST_CASE("savers of one file wait for each other", "[base][property][threads]") {
    const ScratchFolder folder;
    const fs::path path = folder / "shared.json";
    std::vector<std::thread> savers;
    std::vector<int> done(4);
    for (std::size_t i = 0; i < done.size(); ++i) {
        savers.emplace_back([&, i] {
            const std::string text(50000, static_cast<char>('a' + i));
            for (int k = 0; k < 10; ++k) done[i] += save_text_file(path, text) ? 1 : 0;
        });
    }
    for (std::thread& saver : savers) saver.join();
    CHECK(done == std::vector<int>{10, 10, 10, 10});
    const std::string found = content(path);
    CHECK(found == std::string(50000, found.front()));
    CHECK(folder.file_count() == 1);
}
