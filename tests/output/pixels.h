#pragma once

#include "sunfleck/output/palette.h"

#include <cstdint>
#include <string>
#include <vector>

namespace sunfleck::output::test {

/// A decoded PNG.
class Pixels {
  public:
    explicit Pixels(const std::string& png);
    [[nodiscard]] int width() const { return width_; }
    [[nodiscard]] int height() const { return height_; }
    [[nodiscard]] Colour at(double x, double y) const;
    /// Rec. 709 luminance of the pixel, 0 to 255: what a grey print keeps.
    [[nodiscard]] double grey(double x, double y) const;

  private:
    int width_ = 0;
    int height_ = 0;
    std::vector<std::uint32_t> rows_;
};

/// Largest difference of a channel.
[[nodiscard]] int difference(Colour a, Colour b);

}  // namespace sunfleck::output::test
