#pragma once

#include <cstddef>
#include <cstdint>

namespace sunfleck::assign {

/// The module counts in 32 bits and leaves -1 for none; this is the step to the library's indices.
[[nodiscard]] constexpr std::size_t at(std::int32_t index) {
    return static_cast<std::size_t>(index);
}

}  // namespace sunfleck::assign
