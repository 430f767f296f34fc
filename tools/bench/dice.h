#pragma once

#include <cstdint>
#include <random>

namespace sunfleck::bench {

/// Even numbers from a seed, the same with every library.
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : bits_(seed) {}
    [[nodiscard]] double between(double low, double high) {
        const double share = static_cast<double>(bits_() >> 11U) * 0x1.0p-53;
        return low + share * (high - low);
    }

  private:
    std::mt19937_64 bits_;
};

}  // namespace sunfleck::bench
