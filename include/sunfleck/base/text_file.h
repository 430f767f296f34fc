#pragma once

#include "sunfleck/base/problem.h"

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>

namespace sunfleck {

/// The largest file that is read as text; a garden of ten thousand pots needs a tenth of it.
inline constexpr std::size_t largest_text_file_bytes = std::size_t{64} * 1024 * 1024;

/// The bytes of a regular file. A missing, unreadable or too large file, a folder or a device is
/// a problem of kind `file`.
[[nodiscard]] Result<std::string> read_text_file(const std::filesystem::path& path);

/// Replaces the file by `text` whole or not at all, even when the program or the machine stops
/// half way: the text goes to ".<name>.part" in the same folder, is forced to the disk and then
/// renamed over the file. Keeps the file's permissions and follows a symbolic link to the file it
/// names. Savers of one file wait for each other up to 5 s. A killed saver can leave the .part
/// file behind; the next one takes it over.
[[nodiscard]] Result<void> save_text_file(const std::filesystem::path& path, std::string_view text);

}  // namespace sunfleck
