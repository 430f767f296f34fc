#pragma once

#include "sunfleck/output/envelope.h"

#include <optional>
#include <string>
#include <vector>

namespace sunfleck::output {

/// A file that a command wrote.
struct WrittenFile {
    std::string path;  ///< as the user named it
    std::string kind;  ///< "png", "svg"
    int pages = 1;
};

/// The JSON answer of a command that writes files: the envelope and `files`.
[[nodiscard]] std::string written_files_json(const Envelope& envelope,
                                             const std::vector<WrittenFile>& files);

}  // namespace sunfleck::output
