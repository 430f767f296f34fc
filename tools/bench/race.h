#pragma once

#include "clock.h"
#include "contestant.h"
#include "machine.h"

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

/// How fast each contestant answers.
namespace sunfleck::bench {

struct RaceOptions {
    int repeats = 3;
    std::size_t cgal_spots = 100;     ///< that CGAL answers; its time is scaled to all
    std::size_t embree_spots = 2000;  ///< the same for Embree
};

/// One contestant over one table of rays on so many threads.
struct Figure {
    std::string contestant;
    Sees sees = Sees::opaque;
    int threads = 1;
    std::size_t spots_cast = 0;  ///< spots really answered; the seconds are scaled to all spots
    std::size_t answered = 0;    ///< spot-minutes that the seconds stand for
    Spread rays_per_cpu_s;
    Spread cpu_s;
    Spread wall_s;
    std::size_t answer_bytes = 0;     ///< see Sums
    double light_per_spot_min = 0.0;  ///< of the spots answered
};

/// Every contestant in turn, repeat by repeat, so that a busy minute hits all alike.
[[nodiscard]] std::vector<Figure> race(const TestGarden& garden, const SunRays& rays,
                                       const std::vector<Contestant>& contestants,
                                       const RaceOptions& options);

/// One thing done from beginning to end by one contestant.
struct Chore {
    std::string contestant;
    std::string what;
    int threads = 1;
    Spread cpu_ms;  ///< scaled to all spots, as is the wall time
    Spread wall_ms;
    std::size_t bytes = 0;  ///< kept: the caster's structure and the answer's spans
};

/// From nothing: the sun's table, the garden made ready, then every spot's light.
[[nodiscard]] Chore cold(const std::string& what, const TestGarden& garden, const SunRays& rays,
                         const Contestant& contestant, int threads, const RaceOptions& options);

/// How many of the garden's spots the contestant is asked for.
[[nodiscard]] std::vector<Vec3> spots_for(const Contestant& contestant, const TestGarden& garden,
                                          const RaceOptions& options);

}  // namespace sunfleck::bench
