#pragma once

#include "contestant.h"
#include "edge_distance.h"

#include <cstddef>
#include <string>
#include <vector>

/// Proof, before any clock runs, that all contestants answer the same rays alike.
namespace sunfleck::bench {

/// One ray that was told otherwise.
struct Difference {
    Vec3 spot;
    Vec3 to_sun;
    double share = 0.0;
    double expected = 0.0;
    EdgeDistance edge;
};

/// One contestant in one garden. A ray is full, filtered or shade; it differs when it is told to
/// be another of these. It is excused when it passes an edge closer than 1e-6 rad plus what the
/// contestant's error of a corner's place makes of it; else it is wrong. Rays under the horizon
/// are not compared: no garden decides them.
struct Agreement {
    std::string garden;
    std::string contestant;
    std::size_t rays = 0;
    std::size_t shaded = 0;  ///< expected share below 1
    std::size_t different = 0;
    std::size_t wrong = 0;
    double farthest_rad = 0.0;  ///< of the differing rays, the greatest distance from an edge
    std::vector<Difference> differences;  ///< the first of them
};

/// Opaque answers of every contestant against CGAL's exact predicates (EPICK).
[[nodiscard]] std::vector<Agreement> compare_opaque(const TestGarden& garden, const SunRays& rays,
                                                    std::size_t spots,
                                                    const std::vector<Contestant>& contestants,
                                                    int threads);

/// Answers of contestants that know true crowns against geometry::pass, piece by piece. Here a
/// ray's distance from an edge is known to a power of ten: turned by it the truth changes.
[[nodiscard]] std::vector<Agreement> compare_true_forms(const TestGarden& garden,
                                                        const SunRays& rays, std::size_t spots,
                                                        const std::vector<Contestant>& contestants,
                                                        int threads);

/// Adds what was found in another garden.
void join(Agreement& all, const Agreement& part);

/// Meshes of crowns against true crowns: how far a spot's light of a day is off.
struct MeshStep {
    int triangles = 0;  ///< of each crown
    double mean_off_min = 0.0;
    double most_off_min = 0.0;
};

/// One entry per number of halvings from 0 on. With exact casting the mean falls to a quarter
/// each time.
[[nodiscard]] std::vector<MeshStep> mesh_convergence(const TestGarden& garden, const SunRays& day,
                                                     std::size_t spots, int steps,
                                                     const Contestant& all_hit);

/// Every n-th spot, so that there are about as many as asked for; all when there are fewer.
[[nodiscard]] std::vector<Vec3> some_spots(const std::vector<Vec3>& spots, std::size_t about);

}  // namespace sunfleck::bench
