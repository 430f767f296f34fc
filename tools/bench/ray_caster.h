#pragma once

#include "mesh_garden.h"
#include "sun_rays.h"
#include "sunfleck/base/vec3.h"

#include <cstddef>
#include <memory>
#include <span>
#include <string>

/// Casters that look at every ray: what the product is measured against.
namespace sunfleck::bench {

/// Any thread may cast.
class RayCaster {
  public:
    virtual ~RayCaster() = default;
    /// The share of light that each of the rays [from, from + shares.size()) brings to the spot.
    virtual void cast(const SunRays& rays, std::size_t from, Vec3 spot,
                      std::span<float> shares) const = 0;
    /// Bytes of its own acceleration structure, where it can say so; else 0.
    [[nodiscard]] virtual std::size_t bytes() const { return 0; }

  protected:
    RayCaster() = default;
    RayCaster(const RayCaster&) = default;
    RayCaster& operator=(const RayCaster&) = default;
};

/// CGAL's AABB tree over the opaque triangles, one do_intersect a ray, with exact predicates.
[[nodiscard]] std::unique_ptr<RayCaster> make_cgal_exact_caster(const MeshGarden& mesh);
/// The same in plain double arithmetic.
[[nodiscard]] std::unique_ptr<RayCaster> make_cgal_simple_caster(const MeshGarden& mesh);

enum class EmbreeMode {
    single,              ///< rtcOccluded1, opaque
    packets,             ///< rtcOccluded16, coherent, opaque
    all_hit_single,      ///< rtcOccluded1 with a filter that gathers nets and crowns
    all_hit_coherent,    ///< rtcOccluded16 with the filter, coherent flag
    all_hit_incoherent,  ///< rtcOccluded16 with the filter, incoherent flag
};
[[nodiscard]] std::unique_ptr<RayCaster> make_embree_caster(const MeshGarden& mesh,
                                                            EmbreeMode mode);

}  // namespace sunfleck::bench
