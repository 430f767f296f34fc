#include "drag.h"

namespace sunfleck::bench {
namespace {

constexpr Vec3 drag_m{0.3, 0.0, 0.0};

}  // namespace

Chore drag_by_casting(const TestGarden& garden, const SunRays& day, const Contestant& contestant,
                      const RaceOptions& options) {
    const geometry::Garden moved = with_moved(garden.garden, garden.dragged_object, drag_m);
    const std::vector<Vec3> spots = spots_for(contestant, garden, options);
    const double scale =
        static_cast<double>(garden.spots.size()) / static_cast<double>(spots.size());
    std::vector<double> cpu_ms;
    std::vector<double> wall_ms;
    for (int repeat = 0; repeat < options.repeats; ++repeat) {
        std::unique_ptr<Prepared> prepared;
        const Span building =
            measured([&] { prepared = contestant.prepare(moved, garden.crown_halvings); });
        const Span casting = measured([&] { (void)prepared->sum(day, spots, 1); });
        cpu_ms.push_back(1e3 * (building.cpu_s + scale * casting.cpu_s));
        wall_ms.push_back(1e3 * (building.wall_s + scale * casting.wall_s));
    }
    return {.contestant = contestant.name,
            .what = "drag_day",
            .cpu_ms = spread(cpu_ms),
            .wall_ms = spread(wall_ms)};
}

}  // namespace sunfleck::bench
