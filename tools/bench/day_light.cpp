#include "day_light.h"

#include "agreement.h"
#include "span_light.h"
#include "sunfleck/base/parallel.h"
#include "sunfleck/geometry/horizon.h"
#include "sunfleck/rays/light_tracer.h"
#include "true_forms.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::bench {
namespace {

constexpr double tick_min = 1.0 / rays::ticks_per_minute;

/// Towards the sun in the middle of a tick: between two samples, which are 0.25 degrees apart.
Vec3 direction_at(const rays::SunTable& table, const rays::SunTableDay& day, int tick) {
    const double minutes = (tick + 0.5) * tick_min;
    const int sample = std::min(static_cast<int>(minutes), day.sample_count - 2);
    const double share = minutes - sample;
    return normalised((1.0 - share) * table.direction(day, sample) +
                      share * table.direction(day, sample + 1));
}

double true_minutes(const geometry::Garden& garden, const TrueForms& truth,
                    const rays::SunTable& table, Vec3 spot) {
    const rays::SunTableDay& day = table.days()[0];
    double ticks = 0.0;
    for (int tick = day.up_from_tick; tick < day.up_to_tick; ++tick) {
        const Vec3 to_sun = direction_at(table, day, tick);
        if (geometry::is_over_horizon(garden.horizon, to_sun)) ticks += truth.share(spot, to_sun);
    }
    return ticks * tick_min;
}

}  // namespace

DayLight compare_day_light(const TestGarden& garden, const SunRays& day, std::size_t about_spots) {
    const TrueForms truth(garden.garden);
    const std::vector<Vec3> points = some_spots(garden.spots, about_spots);
    std::vector<rays::LightSpot> spots;
    for (const Vec3& point : points) spots.push_back({.point = point, .outward = {}});
    const rays::LightSpans light = rays::make_solving_tracer(garden.garden, *day.table)
                                       ->trace({.spots = spots, .resolves_all_laths = true});
    std::vector<double> expected(points.size());
    parallel_for_each_index(points.size(), 0, [&](std::size_t i) {
        expected[i] = true_minutes(garden.garden, truth, *day.table, points[i]);
    });
    DayLight all{.garden = garden.name, .spots = points.size()};
    for (std::size_t i = 0; i < points.size(); ++i) {
        const double minutes = effective_min(light, i, 0);
        const double off = std::abs(minutes - expected[i]);
        const double ends = 2.0 * static_cast<double>(light.day(i, 0).size());
        if (!(off <= ends * tick_min + 0.02)) ++all.wrong;
        all.mean_min += expected[i] / static_cast<double>(points.size());
        all.mean_off_min += off / static_cast<double>(points.size());
        all.most_off_min = std::max(all.most_off_min, off);
    }
    return all;
}

}  // namespace sunfleck::bench
