#include "sunfleck/base/problem.h"

namespace sunfleck {

std::string to_text(const Problem& problem) {
    std::string text = problem.file;
    if (problem.line > 0) {
        text += ':' + std::to_string(problem.line) + ':' + std::to_string(problem.column);
    }
    if (!text.empty()) text += ": ";
    if (!problem.pointer.empty()) text += problem.pointer + ": ";
    text += problem.message;
    if (!problem.mend.empty()) text += ' ' + problem.mend;
    return text;
}

}  // namespace sunfleck
