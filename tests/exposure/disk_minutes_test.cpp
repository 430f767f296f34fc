// The fast engine's minutes of the disk against SpotSun, which halves stretches of the day until
// the disk's beam proves them, and knows nothing of cones of hour angle.
#include "exposure/traced_spot.h"
#include "sunfleck/rays/light_disk.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace sunfleck;
using namespace sunfleck::test;

namespace {

struct Off {
    double worst_min = 0.0;
    double sum_min = 0.0;
    int count = 0;
    void take(double minutes) {
        worst_min = std::max(worst_min, std::abs(minutes));
        sum_min += std::abs(minutes);
        ++count;
    }
};

// Full, filtered and effective minutes of a garden's spots on a day, by both ways.
void compare(const geometry::Garden& garden, const std::vector<Vec3>& points, Date date,
             const sun::Place& place, int path_count, Off& off) {
    const std::vector<Date> dates{date};
    const rays::DiskPaths paths = rays::disk_paths(dates, place, {}, path_count);
    std::vector<rays::LightSpot> spots;
    for (const Vec3& point : points) spots.push_back({.point = point, .outward = {}});
    const auto light = rays::trace_paths(garden, paths, {.spots = spots, .thread_count = 1});
    const auto engine = rays::make_reference_engine(garden);
    const rays::Sights sights(garden);
    const TestDay day(date, place);
    const auto optics = geometry::optics_on(garden, date);
    for (std::size_t i = 0; i < points.size(); ++i) {
        exposure::SpotSun spot(*engine, sights, {.point = points[i], .outward = {}});
        const auto slow = exposure::day_exposure(date, spot.day(day.arc, optics), {}, {}).total;
        const rays::LightMinutes fast = rays::disk_minutes(paths, light, i, 0);
        CHECK(fast.sun_up_min == Approx(slow.sun_up_min).margin(0.04));
        off.take(fast.full_min - slow.full_min);
        off.take(fast.filtered_min - slow.filtered_min);
        off.take(fast.effective_min - slow.effective_min);
    }
}

}  // namespace

TEST_CASE("Three paths give the disk's minutes of a straight edge", "[exposure][property]") {
    // A wall that the sun leaves behind or comes out from at any slant.
    Off off;
    for (double turn = 0.0; turn < 3.0; turn += 0.37) {
        const geometry::Garden garden =
            garden_of({solid_box({0.5, -30.0, -5.0}, {0.7, 30.0, 1.2}, 0.0, turn)});
        compare(garden, {{-0.4, 0.3, 0.0}, {1.9, 0.2, 0.1}}, make_date(2026, 5, 5),
                place_at(50.0, 8.0), 3, off);
    }
    CAPTURE(off.worst_min, off.sum_min / off.count);
    CHECK(off.worst_min < 0.1);
    CHECK(off.sum_min / off.count < 0.02);
}

TEST_CASE("More paths come nearer to the disk in random gardens", "[exposure][cross]") {
    struct Row {
        int paths;
        double worst_min;
        double mean_min;
    };
    for (const Row& row : {Row{1, 8.0, 0.12}, Row{3, 0.9, 0.035}, Row{5, 0.8, 0.03}}) {
        Off off;
        for (std::uint64_t seed = 0; seed < 50; ++seed) {
            Dice dice(seed);
            const geometry::Garden garden = random_garden(seed, 12);
            const Date date =
                add_days(make_date(2026, 1, 1), static_cast<int>(dice.between(0, 365)));
            compare(garden, {dice.point(-3.0, 3.0), dice.point(-3.0, 3.0)}, date,
                    place_at(dice.between(-60.0, 60.0), 0.0), row.paths, off);
        }
        CAPTURE(row.paths, off.worst_min, off.sum_min / off.count);
        CHECK(off.worst_min < row.worst_min);
        CHECK(off.sum_min / off.count < row.mean_min);
    }
}
