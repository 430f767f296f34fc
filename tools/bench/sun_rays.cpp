#include "sun_rays.h"

#include "sunfleck/sun/place.h"

namespace sunfleck::bench {
namespace {

constexpr std::size_t packet = 16;

void add(SunRays& rays, const rays::SunTableDay& day, int sample) {
    const Vec3 to_sun = rays.table->direction(day, sample);
    rays.samples.push_back(sample);
    rays.to_sun.push_back(to_sun);
    rays.x.push_back(static_cast<float>(to_sun.x));
    rays.y.push_back(static_cast<float>(to_sun.y));
    rays.z.push_back(static_cast<float>(to_sun.z));
}

}  // namespace

SunRays sun_rays(std::span<const Date> dates, int step_min) {
    const sun::Place place{Latitude::degrees(55.7), Longitude::degrees(12.5)};
    SunRays rays;
    rays.table = std::make_shared<const rays::SunTable>(dates, place);
    rays.step_min = step_min;
    for (const rays::SunTableDay& day : rays.table->days()) {
        for (int sample = day.first_asked(); sample < day.end_asked(); sample += step_min) {
            add(rays, day, sample);
        }
        rays.day_starts.push_back(rays.to_sun.size());
    }
    for (auto* part : {&rays.x, &rays.y, &rays.z}) part->resize(rays.size() + packet, 0.0F);
    return rays;
}

std::vector<Date> days_of_year(int year, int step) {
    std::vector<Date> days;
    for (Date day = make_date(year, 1, 1); year_of(day) == year; day = add_days(day, step)) {
        days.push_back(day);
    }
    return days;
}

}  // namespace sunfleck::bench
