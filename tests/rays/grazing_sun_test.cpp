// Refraction lifts the lowest part of the sun's path the most, so that the path bends there: a
// plane nearly along it may be crossed three times within a quarter of an hour of sunrise.
#include "rays/light_cases.h"
#include "sunfleck/rays/light_tracer.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>

using namespace sunfleck;
using namespace sunfleck::test;

namespace {

// How often the sun of a day goes through the plane square to `outward`.
int crossings(const rays::SunTable& sun, const rays::SunTableDay& day, Vec3 outward) {
    int count = 0;
    for (int i = day.first_asked() + 1; i < day.end_asked(); ++i) {
        const bool before = dot(outward, sun.direction(day, i - 1)) > 0.0;
        if (before != (dot(outward, sun.direction(day, i)) > 0.0)) ++count;
    }
    return count;
}

// Minutes of the day, but for those within 1e-6 radians of the plane, told otherwise than by it.
int wrong_minutes(const rays::LightTracer& tracer, std::size_t day_index, Vec3 outward) {
    const rays::SunTable& sun = tracer.sun();
    const rays::SunTableDay& day = sun.days()[day_index];
    const std::vector<rays::LightSpot> spots{{.point = {}, .outward = outward}};
    const rays::LightSpans light = tracer.trace({.spots = spots, .thread_count = 1});
    int wrong = 0;
    for (int i = day.first_asked(); i < day.end_asked(); ++i) {
        const Vec3 to_sun = sun.direction(day, i);
        const double over = dot(outward, to_sun);
        if (to_sun.z <= 1e-6 || std::abs(over) < 1e-6) continue;
        if ((light.at_sample(0, day_index, i) != nullptr) != (over > 0.0)) ++wrong;
    }
    return wrong;
}

}  // namespace

TEST_CASE("A plane along the low sun's path is crossed as often as it is", "[rays][property]") {
    const geometry::Garden empty = garden_of({});
    int twice_at_least = 0;
    for (const double latitude_deg : {-33.0, 0.0, 35.0, 55.7, 64.0, 67.5}) {
        Dice dice(static_cast<std::uint64_t>(1000.0 + latitude_deg));
        const rays::SunTable sun(random_dates(dice, 12), test_place(latitude_deg));
        const auto tracer = rays::make_solving_tracer(empty, sun);
        for (std::size_t d = 0; d < sun.days().size(); ++d) {
            const rays::SunTableDay& day = sun.days()[d];
            if (day.sample_count < 80) continue;
            for (int i = 0; i < 20; ++i) {
                // A plane through two moments of the same morning or evening.
                const int one = static_cast<int>(dice.between(1.0, 30.0));
                const int other = one + static_cast<int>(dice.between(2.0, 30.0));
                const int end = day.sample_count - 1;
                const bool is_morning = i % 2 == 0;
                const Vec3 a = sun.direction(day, is_morning ? one : end - one);
                const Vec3 b = sun.direction(day, is_morning ? other : end - other);
                const Vec3 outward = (i % 4 < 2 ? 1.0 : -1.0) * normalised(cross(a, b));
                CAPTURE(latitude_deg, d, one, other, is_morning);
                CHECK(wrong_minutes(*tracer, d, outward) == 0);
                if (crossings(sun, day, outward) >= 2) ++twice_at_least;
            }
        }
    }
    CHECK(twice_at_least > 500);
}
