#include "sunfleck/base/text_file.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <system_error>
#include <thread>
#include <utility>

namespace sunfleck {

namespace {

namespace fs = std::filesystem;

/// Closes a file descriptor.
class Descriptor {
  public:
    explicit Descriptor(int number = -1) : number_(number) {}
    Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
    Descriptor& operator=(Descriptor&& other) noexcept {
        std::swap(number_, other.number_);
        return *this;
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor() {
        if (number_ >= 0) ::close(number_);
    }
    [[nodiscard]] int number() const { return number_; }
    [[nodiscard]] bool is_open() const { return number_ >= 0; }

  private:
    int number_;
};

std::string mend_for(int error) {
    switch (error) {
        case ENOENT:
            return "Check the name and the folder.";
        case EACCES:
        case EPERM:
            return "Ask for the permission, or choose another place.";
        case EROFS:
            return "Choose another place: this disk can only be read.";
        case ENOSPC:
        case EDQUOT:
            return "Make room on the disk.";
        case EISDIR:
            return "Name a file in it.";
        case ENAMETOOLONG:
            return "Choose a shorter name.";
        default:
            return {};
    }
}

Problem file_problem(const fs::path& path, std::string code, std::string message,
                     std::string mend) {
    return {.kind = ProblemKind::file,
            .code = std::move(code),
            .file = path.string(),
            .message = std::move(message),
            .mend = std::move(mend)};
}

/// "The file can't be read: Permission denied."
std::string trouble_words(const char* what, int error) {
    if (error == EISDIR) return "This is a folder.";
    return std::string("The file can't be ") + what + ": " +
           std::generic_category().message(error) + '.';
}

tl::unexpected<Problems> not_read(const fs::path& path, int error) {
    const bool is_missing = error == ENOENT || error == ENOTDIR;
    return failure(file_problem(
        path, is_missing ? "file_missing" : "file_not_read",
        is_missing ? "There is no such file." : trouble_words("read", error), mend_for(error)));
}

tl::unexpected<Problems> not_saved(const fs::path& path, int error) {
    return failure(
        file_problem(path, "file_not_saved", trouble_words("saved", error), mend_for(error)));
}

Result<std::string> bytes_of(const fs::path& path, const Descriptor& file, std::size_t size) {
    std::string text;
    text.reserve(size + 1);
    char block[65536];
    while (true) {
        const ssize_t count = ::read(file.number(), block, sizeof block);
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) return not_read(path, errno);
        if (count == 0) return text;
        text.append(block, static_cast<std::size_t>(count));
        if (text.size() > largest_text_file_bytes) return not_read(path, EFBIG);
    }
}

/// Writes all of `text`; 0, or the error.
int write_all(const Descriptor& file, std::string_view text) {
    while (!text.empty()) {
        const ssize_t count = ::write(file.number(), text.data(), text.size());
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) return errno;
        text.remove_prefix(static_cast<std::size_t>(count));
    }
    return 0;
}

/// The file that a chain of symbolic links names in the end, so that a link stays a link.
fs::path behind_links(const fs::path& path) {
    std::error_code error;
    if (!fs::is_symlink(path, error)) return path;
    const fs::path target = fs::weakly_canonical(path, error);
    return error ? path : target;
}

bool is_file_at(const Descriptor& file, const fs::path& path) {
    struct stat open_file {};
    struct stat named_file {};
    return ::fstat(file.number(), &open_file) == 0 && ::lstat(path.c_str(), &named_file) == 0 &&
           open_file.st_dev == named_file.st_dev && open_file.st_ino == named_file.st_ino;
}

/// Opens and locks the .part file, waiting for another saver; an error number when it can't.
/// A saver that waited may hold a file which has since been renamed to the target: then again.
tl::expected<Descriptor, int> locked_part(const fs::path& part) {
    using namespace std::chrono_literals;
    constexpr int most_tries = 500;
    for (int i = 0; i < most_tries; ++i) {
        Descriptor file(::open(part.c_str(), O_WRONLY | O_CREAT | O_NOFOLLOW | O_CLOEXEC, 0666));
        if (!file.is_open()) return tl::unexpected(errno);
        if (::flock(file.number(), LOCK_EX | LOCK_NB) == 0) {
            if (is_file_at(file, part)) return file;
        } else if (errno != EWOULDBLOCK && errno != EINTR) {
            return tl::unexpected(errno);
        }
        std::this_thread::sleep_for(10ms);
    }
    return tl::unexpected(EBUSY);
}

/// Gives the new file the old one's permissions; a new file has those of the user's mask.
int keep_permissions(const Descriptor& file, const fs::path& target) {
    struct stat old {};
    if (::stat(target.c_str(), &old) != 0) return errno == ENOENT ? 0 : errno;
    if (S_ISDIR(old.st_mode)) return EISDIR;
    if (!S_ISREG(old.st_mode)) return EINVAL;
    // A rename needs no right to the file itself; an owner who took the right away meant it.
    if (::access(target.c_str(), W_OK) != 0) return errno;
    return ::fchmod(file.number(), old.st_mode & 07777) == 0 ? 0 : errno;
}

/// Makes the rename itself last. A file system that can't sync a folder is not an error: the file
/// is whole either way.
void sync_folder(const fs::path& folder) {
    const Descriptor opened(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (opened.is_open()) ::fsync(opened.number());
}

int fill(const Descriptor& file, const fs::path& target, std::string_view text) {
    if (::ftruncate(file.number(), 0) != 0) return errno;
    if (const int error = keep_permissions(file, target)) return error;
    if (const int error = write_all(file, text)) return error;
    return ::fsync(file.number()) == 0 ? 0 : errno;
}

}  // namespace

Result<std::string> read_text_file(const fs::path& path) {
    // Not blocking, so that a named pipe without a writer is refused instead of waited for.
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC));
    if (!file.is_open()) return not_read(path, errno);
    struct stat status {};
    if (::fstat(file.number(), &status) != 0) return not_read(path, errno);
    if (S_ISDIR(status.st_mode)) return not_read(path, EISDIR);
    if (!S_ISREG(status.st_mode)) {
        return failure(file_problem(path, "file_not_read", "This is not an ordinary file.",
                                    "Name a text file."));
    }
    if (static_cast<std::size_t>(status.st_size) > largest_text_file_bytes) {
        return not_read(path, EFBIG);
    }
    return bytes_of(path, file, static_cast<std::size_t>(status.st_size));
}

Result<void> save_text_file(const fs::path& path, std::string_view text) {
    const fs::path target = behind_links(path);
    if (!target.has_filename()) return not_saved(path, EISDIR);
    const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
    const fs::path part = folder / ("." + target.filename().string() + ".part");
    const auto file = locked_part(part);
    if (!file) return not_saved(path, file.error());
    int error = fill(*file, target, text);
    if (error == 0 && ::rename(part.c_str(), target.c_str()) != 0) error = errno;
    if (error != 0) {
        ::unlink(part.c_str());
        return not_saved(path, error);
    }
    sync_folder(folder);
    return {};
}

}  // namespace sunfleck
