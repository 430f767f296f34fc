#include "cgal_caster.h"

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>

namespace sunfleck::bench {

std::unique_ptr<RayCaster> make_cgal_exact_caster(const MeshGarden& mesh) {
    return std::make_unique<CgalCaster<CGAL::Exact_predicates_inexact_constructions_kernel>>(mesh);
}

}  // namespace sunfleck::bench
