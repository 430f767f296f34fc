#pragma once

#include "sunfleck/geometry/piece.h"

#include <memory>

namespace sunfleck::rays {

/// An imported mesh in Embree's tree. Opaque: the first triangle met ends a ray. Held in single
/// precision around its own middle; a ray within 1e-6 radians of an edge may go either way.
class EmbreeMesh {
  public:
    explicit EmbreeMesh(const geometry::MeshBody& mesh);
    ~EmbreeMesh();
    EmbreeMesh(EmbreeMesh&&) noexcept;
    EmbreeMesh& operator=(EmbreeMesh&&) noexcept;

    /// Up to 16 rays from one place; `directions` are rows as in DayFrames. Sets bit i where ray i
    /// is blocked.
    [[nodiscard]] unsigned blocked(Vec3 origin, const float* directions, int count) const;

  private:
    struct Tree;
    std::unique_ptr<Tree> tree_;
};

}  // namespace sunfleck::rays
