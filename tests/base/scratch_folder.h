#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <system_error>

namespace sunfleck::test {

/// A new empty folder, removed with all in it at the end of its life.
class ScratchFolder {
  public:
    ScratchFolder() {
        std::string pattern = (std::filesystem::temp_directory_path() / "sunfleck-XXXXXX").string();
        if (::mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no scratch folder");
        path_ = pattern;
    }
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;
    ~ScratchFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    [[nodiscard]] std::string path(const std::string& name) const {
        return (path_ / name).string();
    }
    std::filesystem::path operator/(const std::string& name) const { return path_ / name; }

    /// Writes a file of these bytes, with the folders on its way, and tells its path.
    std::filesystem::path with(const std::string& name, const std::string& bytes) const {
        std::filesystem::create_directories((path_ / name).parent_path());
        std::ofstream file(path_ / name, std::ios::binary);
        file << bytes;
        if (!file.flush()) throw std::runtime_error("no scratch file");
        return path_ / name;
    }
    [[nodiscard]] std::size_t file_count() const {
        return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(path_),
                                                      std::filesystem::directory_iterator{}));
    }

  private:
    std::filesystem::path path_;
};

}  // namespace sunfleck::test
