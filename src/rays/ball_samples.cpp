#include "rays/ball_samples.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunfleck::rays {
namespace {

// The table's sun strays from its day's circle by less: refraction and drift.
constexpr double stray_rad = 0.02;
constexpr double per_minute = 4.363323129985824e-3;
constexpr double turn = 2.0 * std::numbers::pi;

SampleRange clipped(double from_hour_angle, double to_hour_angle, double start, int last) {
    const double from = std::floor((from_hour_angle - start) / per_minute) - 1.0;
    const double to = std::ceil((to_hour_angle - start) / per_minute) + 1.0;
    if (to < 0.0 || from > last) return {};
    return {std::max(0, static_cast<int>(from)),
            std::min(last, static_cast<int>(std::min(to, 1e6)))};
}

}  // namespace

std::array<SampleRange, 2> samples_before(const Ball& ball, Vec3 spot, const SunTable& sun,
                                          std::size_t day_index) {
    const SunTableDay& day = sun.days()[day_index];
    const int last = day.sample_count - 1;
    const std::array<SampleRange, 2> whole{SampleRange{0, last}, SampleRange{}};
    const Vec3 to_ball = ball.centre - spot;
    const double distance = length(to_ball);
    if (distance <= ball.radius_m * 1.0001 + 1e-5) return whole;
    const double reach = std::asin(ball.radius_m / distance) + stray_rad;
    if (reach >= 0.5 * std::numbers::pi) return whole;
    const double latitude = sun.place().latitude.angle().in_radians();
    const Vec3 pole{0.0, std::cos(latitude), std::sin(latitude)};
    const Vec3 meridian{0.0, -pole.z, pole.y};
    const double sine = dot(to_ball, pole) / distance;
    const double cosine = std::sqrt(std::max(0.0, 1.0 - sine * sine));
    const double scale = cosine * cos(day.declination);
    const double needed = std::cos(reach) - sine * sin(day.declination);
    if (needed > scale) return {};
    if (needed <= -scale || scale < 1e-6) return whole;
    const double half = std::acos(needed / scale);
    const double start = day.start_hour_angle.in_radians();
    double middle = std::atan2(-to_ball.x, dot(to_ball, meridian));
    // The copy whose middle is in the day's turn around noon, and the one that the day may reach
    // on the other side.
    const double other = middle >= 0.0 ? middle - turn : middle + turn;
    SampleRange a = clipped(middle - half, middle + half, start, last);
    SampleRange b = clipped(other - half, other + half, start, last);
    if (b.to >= b.from && (a.to < a.from || b.from < a.from)) std::swap(a, b);
    if (b.to >= b.from && a.to >= b.from) return {SampleRange{a.from, std::max(a.to, b.to)}, {}};
    return {a, b};
}

}  // namespace sunfleck::rays
