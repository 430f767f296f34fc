#pragma once

#include "sunfleck/geometry/garden.h"

#include <vector>

namespace sunfleck::bench {

/// Light through a garden piece by piece with geometry::pass: the product's own definition of
/// every body, crowns in their true form. Slow; the truth for what meshes can only approach.
class TrueForms {
  public:
    explicit TrueForms(const geometry::Garden& garden);
    [[nodiscard]] double share(Vec3 spot, Vec3 to_sun) const;

  private:
    geometry::Garden garden_;  ///< every lath a solid of its own
    std::vector<geometry::PieceOptics> optics_;
};

/// Everything hangs, crowns in leaf.
[[nodiscard]] std::vector<geometry::PieceOptics> summer_optics(const geometry::Garden& garden);

}  // namespace sunfleck::bench
