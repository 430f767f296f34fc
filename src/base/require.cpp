#include "sunfleck/base/require.h"

namespace sunfleck {

void fail_requirement(const char* condition, const char* message, const char* file, int line) {
    throw InternalError(std::string(message) + " (" + condition + ") at " + file + ":" +
                        std::to_string(line));
}

}  // namespace sunfleck
