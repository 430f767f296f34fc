#pragma once

#include <stdexcept>
#include <string>

namespace sunfleck {

/// A bug in the program, never the user's input; caught only where the program starts.
class InternalError : public std::logic_error {
  public:
    using std::logic_error::logic_error;
};

/// Throws InternalError naming the place; used by SUNFLECK_REQUIRE.
[[noreturn]] void fail_requirement(const char* condition, const char* message, const char* file,
                                   int line);

}  // namespace sunfleck

/// A promise between parts of the program, checked in release builds too.
#define SUNFLECK_REQUIRE(condition, message)                                       \
    do {                                                                           \
        if (!(condition)) {                                                        \
            ::sunfleck::fail_requirement(#condition, message, __FILE__, __LINE__); \
        }                                                                          \
    } while (false)
