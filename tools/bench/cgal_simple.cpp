#include "cgal_caster.h"

#include <CGAL/Simple_cartesian.h>

namespace sunfleck::bench {

std::unique_ptr<RayCaster> make_cgal_simple_caster(const MeshGarden& mesh) {
    return std::make_unique<CgalCaster<CGAL::Simple_cartesian<double>>>(mesh);
}

}  // namespace sunfleck::bench
