#pragma once

#include <cstddef>
#include <string>

namespace sunfleck::bench {

/// What the figures were measured on.
struct Machine {
    std::string cpu;  ///< model, family and number
    int cores = 0;
    std::string instructions;  ///< the widest vectors the CPU has
    std::string compiler;
};

[[nodiscard]] Machine this_machine();

/// Processes that wanted to run in the last minute, on the mean.
[[nodiscard]] double load_average();

/// Bytes that this process has allocated and not freed.
[[nodiscard]] std::size_t allocated_bytes();

/// The most memory that this process ever held, bytes.
[[nodiscard]] std::size_t peak_bytes();

}  // namespace sunfleck::bench
