#include "rays/day_frames.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::rays {
namespace {

constexpr double minute_turn = 4.363323129985824e-3;  // of the Earth, radians

/// Largest angle (as a chord) between the day's samples and its circle.
double stray_of(const SunTable& sun, const SunTableDay& day, const DayFrames& frames) {
    const double sine = sin(day.declination);
    const double cosine = cos(day.declination);
    const double turn_cosine = std::cos(minute_turn);
    const double turn_sine = std::sin(minute_turn);
    double cos_hour = std::cos(day.start_hour_angle.in_radians());
    double sin_hour = std::sin(day.start_hour_angle.in_radians());
    double worst = 0.0;
    for (int i = 0; i < day.sample_count; ++i) {
        const Vec3 ideal = sine * frames.pole + cosine * cos_hour * frames.meridian +
                           Vec3{-cosine * sin_hour, 0.0, 0.0};
        const Vec3 off = sun.direction(day, i) - ideal;
        worst = std::max(worst, dot(off, off));
        const double turned = cos_hour * turn_cosine - sin_hour * turn_sine;
        sin_hour = sin_hour * turn_cosine + cos_hour * turn_sine;
        cos_hour = turned;
    }
    return std::sqrt(worst) + 1e-6;
}

// Hour angle from either end of the day, whichever is longer, to where the sun is no longer low.
double low_sun_turn_of(const SunTable& sun, const SunTableDay& day) {
    constexpr double low_sine = 0.035;
    int first = 0;
    while (first < day.sample_count && sun.direction(day, first).z < low_sine) ++first;
    int last = day.sample_count - 1;
    while (last > first && sun.direction(day, last).z < low_sine) --last;
    return minute_turn * std::max(first, day.sample_count - 1 - last);
}

// Widens the sines' bounds of the last day's group.
void add_to_group(DayFrames& frames, Angle declination, double stray) {
    const std::size_t group = (frames.tan_declination.size() - 1) / days_at_once;
    if (group == frames.lowest_sine.size()) {
        frames.lowest_sine.push_back(1.0F);
        frames.highest_sine.push_back(-1.0F);
    }
    const auto low = static_cast<float>(sin(declination) - stray);
    const auto high = static_cast<float>(sin(declination) + stray);
    frames.lowest_sine[group] = std::min(frames.lowest_sine[group], low);
    frames.highest_sine[group] = std::max(frames.highest_sine[group], high);
}

}  // namespace

DayFrames day_frames(const SunTable& sun) {
    DayFrames frames;
    const Angle latitude = sun.place().latitude.angle();
    frames.pole = {0.0, cos(latitude), sin(latitude)};
    frames.meridian = {0.0, -sin(latitude), cos(latitude)};
    frames.day_count = sun.days().size();
    for (const SunTableDay& day : sun.days()) {
        const double stray = stray_of(sun, day, frames);
        frames.tan_declination.push_back(static_cast<float>(tan(day.declination)));
        frames.stray_over_cos.push_back(static_cast<float>(stray / cos(day.declination)));
        frames.start_hour_angle.push_back(static_cast<float>(day.start_hour_angle.in_radians()));
        frames.last_sample.push_back(static_cast<float>(day.sample_count - 1));
        frames.first_sample.push_back(static_cast<std::int32_t>(day.first_sample));
        frames.low_sun_turn.push_back(static_cast<float>(low_sun_turn_of(sun, day)));
        add_to_group(frames, day.declination, stray);
    }
    // Days that have no sample fill the last group.
    while (frames.tan_declination.size() % days_at_once != 0) {
        frames.tan_declination.push_back(0.0F);
        frames.stray_over_cos.push_back(0.0F);
        frames.start_hour_angle.push_back(0.0F);
        frames.last_sample.push_back(-1.0F);
        frames.first_sample.push_back(0);
        frames.low_sun_turn.push_back(0.0F);
    }
    const std::span<const float> directions = sun.directions();
    const std::size_t count = directions.size() / 3;
    frames.directions.assign(4 * (count + 2 * days_at_once), 0.0F);
    for (std::size_t i = 0; i < count; ++i) {
        for (std::size_t k = 0; k < 3; ++k) frames.directions[4 * i + k] = directions[3 * i + k];
    }
    return frames;
}

}  // namespace sunfleck::rays
