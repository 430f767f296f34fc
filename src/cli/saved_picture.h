#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/output/picture.h"

#include <functional>
#include <string>

namespace sunfleck::cli {

/// Fails when no picture can have that name; so that it is told before any long work.
[[nodiscard]] Result<void> check_picture_name(const std::string& path);

/// Draws a picture in the format of the path's ending and saves it whole or not at all. An empty
/// path: no picture was asked for.
[[nodiscard]] Result<void> save_picture(
    const std::string& path,
    const std::function<Result<std::string>(const output::PictureOptions&)>& draw);

}  // namespace sunfleck::cli
