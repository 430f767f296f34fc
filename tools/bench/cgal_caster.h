#pragma once

#include "ray_caster.h"

#include <CGAL/AABB_traits.h>
#include <CGAL/AABB_tree.h>
#include <CGAL/AABB_triangle_primitive.h>

#include <vector>

namespace sunfleck::bench {
/// One tree of boxes over the opaque triangles, asked ray by ray.
template <class Kernel>
class CgalCaster final : public RayCaster {
  public:
    explicit CgalCaster(const MeshGarden& mesh) {
        triangles_.reserve(mesh.opaque.size());
        for (const geometry::Triangle& t : mesh.opaque) {
            triangles_.emplace_back(point(t.a), point(t.b), point(t.c));
        }
        tree_.insert(triangles_.cbegin(), triangles_.cend());
        tree_.build();
    }

    void cast(const SunRays& rays, std::size_t from, Vec3 spot,
              std::span<float> shares) const override {
        const typename Kernel::Point_3 origin = point(spot);
        for (std::size_t i = 0; i < shares.size(); ++i) {
            const Vec3 d = rays.to_sun[from + i];
            const typename Kernel::Ray_3 ray(origin, typename Kernel::Vector_3(d.x, d.y, d.z));
            shares[i] = tree_.do_intersect(ray) ? 0.0F : 1.0F;
        }
    }

  private:
    using Triangles = std::vector<typename Kernel::Triangle_3>;
    using Primitive = CGAL::AABB_triangle_primitive<Kernel, typename Triangles::const_iterator>;
    using Tree = CGAL::AABB_tree<CGAL::AABB_traits<Kernel, Primitive>>;

    static typename Kernel::Point_3 point(Vec3 a) { return {a.x, a.y, a.z}; }

    Triangles triangles_;
    Tree tree_;
};

}  // namespace sunfleck::bench
