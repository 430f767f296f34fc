#include "race.h"

#include "agreement.h"
#include "machine.h"
#include "sunfleck/rays/sun_table.h"

namespace sunfleck::bench {
namespace {

/// One lane of the race: a contestant on so many threads, and what it took each time.
struct Lane {
    const Contestant* contestant = nullptr;
    const Prepared* prepared = nullptr;
    int threads = 1;
    std::vector<Vec3> spots;
    Sums sums;
    std::vector<double> cpu_s;
    std::vector<double> wall_s;
};

/// One repeat: as many runs as fill a fifth of a CPU second, so that the clock's grain and a
/// neighbour's burst do not show; their mean.
void run_once(Lane& lane, const SunRays& rays) {
    constexpr double least_cpu_s = 0.2;
    Span all;
    int runs = 0;
    while (runs == 0 || all.cpu_s < least_cpu_s) {
        const Span span =
            measured([&] { lane.sums = lane.prepared->sum(rays, lane.spots, lane.threads); });
        all.cpu_s += span.cpu_s;
        all.wall_s += span.wall_s;
        ++runs;
    }
    lane.cpu_s.push_back(all.cpu_s / runs);
    lane.wall_s.push_back(all.wall_s / runs);
}

Figure figure_of(const Lane& lane, std::size_t all_spots) {
    const double scale = static_cast<double>(all_spots) / static_cast<double>(lane.spots.size());
    std::vector<double> rates;
    std::vector<double> cpu_s;
    std::vector<double> wall_s;
    for (std::size_t i = 0; i < lane.cpu_s.size(); ++i) {
        rates.push_back(static_cast<double>(lane.sums.answered) / lane.cpu_s[i]);
        cpu_s.push_back(scale * lane.cpu_s[i]);
        wall_s.push_back(scale * lane.wall_s[i]);
    }
    return {.contestant = lane.contestant->name,
            .sees = lane.contestant->sees,
            .threads = lane.threads,
            .spots_cast = lane.spots.size(),
            .answered = lane.sums.answered / lane.spots.size() * all_spots,
            .rays_per_cpu_s = spread(rates),
            .cpu_s = spread(cpu_s),
            .wall_s = spread(wall_s),
            .answer_bytes = lane.sums.answer_bytes,
            .light_per_spot_min = lane.sums.light_min / static_cast<double>(lane.spots.size())};
}

}  // namespace

std::vector<Vec3> spots_for(const Contestant& contestant, const TestGarden& garden,
                            const RaceOptions& options) {
    switch (contestant.pace) {
        case Pace::slowest:
            return some_spots(garden.spots, options.cgal_spots);
        case Pace::slow:
            return some_spots(garden.spots, options.embree_spots);
        case Pace::fast:
            break;
    }
    return garden.spots;
}

std::vector<Figure> race(const TestGarden& garden, const SunRays& rays,
                         const std::vector<Contestant>& contestants, const RaceOptions& options) {
    std::vector<std::unique_ptr<Prepared>> prepared;
    std::vector<Lane> lanes;
    for (const Contestant& contestant : contestants) {
        prepared.push_back(contestant.prepare(garden.garden, garden.crown_halvings));
        for (const int threads : {1, 2}) {
            lanes.push_back({.contestant = &contestant,
                             .prepared = prepared.back().get(),
                             .threads = threads,
                             .spots = spots_for(contestant, garden, options)});
        }
    }
    for (int repeat = 0; repeat < options.repeats; ++repeat) {
        for (Lane& lane : lanes) {
            run_once(lane, rays);
        }
    }
    std::vector<Figure> figures;
    for (const Lane& lane : lanes) figures.push_back(figure_of(lane, garden.spots.size()));
    return figures;
}

Chore cold(const std::string& what, const TestGarden& garden, const SunRays& rays,
           const Contestant& contestant, int threads, const RaceOptions& options) {
    std::vector<Date> dates;
    for (const rays::SunTableDay& day : rays.table->days()) dates.push_back(day.date);
    const std::vector<Vec3> spots = spots_for(contestant, garden, options);
    const double scale =
        static_cast<double>(garden.spots.size()) / static_cast<double>(spots.size());
    Chore chore{.contestant = contestant.name, .what = what, .threads = threads};
    std::vector<double> cpu_ms;
    std::vector<double> wall_ms;
    for (int repeat = 0; repeat < options.repeats; ++repeat) {
        const std::size_t before = allocated_bytes();
        std::unique_ptr<Prepared> prepared;
        Sums sums;
        const Span table = measured([&] {
            const rays::SunTable made(dates, rays.table->place(), {.thread_count = threads});
        });
        const Span making =
            measured([&] { prepared = contestant.prepare(garden.garden, garden.crown_halvings); });
        const std::size_t held = allocated_bytes() - before;
        const Span casting = measured([&] { sums = prepared->sum(rays, spots, threads); });
        cpu_ms.push_back(1e3 * (table.cpu_s + making.cpu_s + scale * casting.cpu_s));
        wall_ms.push_back(1e3 * (table.wall_s + making.wall_s + scale * casting.wall_s));
        chore.bytes = (prepared->bytes() > 0 ? prepared->bytes() : held) + sums.answer_bytes;
    }
    chore.cpu_ms = spread(cpu_ms);
    chore.wall_ms = spread(wall_ms);
    return chore;
}

}  // namespace sunfleck::bench
