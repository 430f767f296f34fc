#include "cli/saved_picture.h"

#include "sunfleck/base/text_file.h"

namespace sunfleck::cli {

Result<void> check_picture_name(const std::string& path) {
    if (path.empty()) return {};
    if (const auto format = output::picture_format(path); !format) {
        return tl::unexpected(format.error());
    }
    return {};
}

Result<void> save_picture(
    const std::string& path,
    const std::function<Result<std::string>(const output::PictureOptions&)>& draw) {
    if (path.empty()) return {};
    const auto format = output::picture_format(path);
    if (!format) return tl::unexpected(format.error());
    const auto bytes = draw({.format = *format, .size = {}});
    if (!bytes) return tl::unexpected(bytes.error());
    return save_text_file(path, *bytes);
}

}  // namespace sunfleck::cli
