#pragma once

#include <tl/expected.hpp>

#include <string>
#include <vector>

namespace sunfleck {

/// What kind of trouble a problem is; decides the program's exit code.
enum class ProblemKind {
    usage,      ///< the command was called wrongly
    input,      ///< a file's content is wrong
    file,       ///< a file could not be read or written
    no_answer,  ///< the input is fine and the question has no answer
};

/// Whether a problem stops the work or only deserves a look.
enum class Severity { error, warning };

/// One thing that is wrong, told so that its reader can mend it.
struct Problem {
    ProblemKind kind = ProblemKind::input;
    Severity severity = Severity::error;
    std::string code;     ///< stable word for machines, such as "value_out_of_range"
    std::string file;     ///< as the user named it; empty when no file is meant
    int line = 0;         ///< from 1; 0 when unknown
    int column = 0;       ///< from 1, counted in characters, not bytes; 0 when unknown
    std::string pointer;  ///< JSON pointer such as "/benches/0/height_m"; empty when none
    std::string message;  ///< what is so: "The top is 8.00 m up."
    std::string mend;     ///< what to do: "Did you mean 80 cm?"
    std::string nearest;  ///< the nearest known name, when a name was not known
    bool operator==(const Problem&) const = default;
};

using Problems = std::vector<Problem>;

/// The value, or everything that stood in its way.
template <typename T>
using Result = tl::expected<T, Problems>;

/// One problem as the failure of any Result.
[[nodiscard]] inline tl::unexpected<Problems> failure(Problem problem) {
    return tl::unexpected<Problems>(Problems{std::move(problem)});
}

/// "garden.json:12:7: /benches/0/height_m: The top is 8.00 m up. Did you mean 80 cm?"
[[nodiscard]] std::string to_text(const Problem& problem);

}  // namespace sunfleck
