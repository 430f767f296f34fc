#pragma once

#include "sunfleck/base/problem.h"

#include <optional>
#include <string>
#include <string_view>

/// What every machine-readable answer carries around its results.
namespace sunfleck::output {

struct Envelope {
    std::string command;     ///< "exposure"
    std::string scene_name;  ///< the site's name; empty: unknown
    std::string scene_file;  ///< as the user named it; empty: no scene was read
    std::optional<int> year;
    std::string time_zone;  ///< "Europe/London"; empty: unknown
    Problems warnings;
};

/// The JSON that tells a failure: the envelope with `errors` in place of results. `scene_file` may
/// be empty. Ends with a newline.
[[nodiscard]] std::string error_envelope(std::string_view command, std::string_view scene_file,
                                         const Problems& problems);

}  // namespace sunfleck::output
