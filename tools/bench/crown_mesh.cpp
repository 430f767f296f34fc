#include "crown_mesh.h"

namespace sunfleck::bench {
namespace {

using geometry::Triangle;

std::vector<Triangle> octahedron() {
    const Vec3 x{1.0, 0.0, 0.0};
    const Vec3 y{0.0, 1.0, 0.0};
    const Vec3 z{0.0, 0.0, 1.0};
    return {{x, y, z},  {y, -x, z},  {-x, -y, z},  {-y, x, z},
            {y, x, -z}, {-x, y, -z}, {-y, -x, -z}, {x, -y, -z}};
}

/// Each triangle as four, the new corners pushed out to the unit ball.
std::vector<Triangle> halved(const std::vector<Triangle>& ball) {
    std::vector<Triangle> finer;
    finer.reserve(4 * ball.size());
    for (const auto& [a, b, c] : ball) {
        const Vec3 ab = normalised(a + b);
        const Vec3 bc = normalised(b + c);
        const Vec3 ca = normalised(c + a);
        finer.insert(finer.end(), {{a, ab, ca}, {ab, b, bc}, {ca, bc, c}, {ab, bc, ca}});
    }
    return finer;
}

}  // namespace

std::vector<Triangle> crown_mesh(const geometry::Crown& crown, int halvings) {
    std::vector<Triangle> ball = octahedron();
    for (int i = 0; i < halvings; ++i) ball = halved(ball);
    const Vec3 side{-crown.axis.y, crown.axis.x, 0.0};
    const Vec3 centre = crown.base_centre + Vec3{0.0, 0.0, 0.5 * crown.height_m};
    const auto in_world = [&](Vec3 p) {
        return centre + (p.x * crown.half_width_m) * crown.axis +
               (p.y * crown.half_across_m) * side + Vec3{0.0, 0.0, 0.5 * p.z * crown.height_m};
    };
    for (Triangle& t : ball) t = {in_world(t.a), in_world(t.b), in_world(t.c)};
    return ball;
}

}  // namespace sunfleck::bench
