#include "rays/day_frames.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>

namespace sunfleck::rays {
namespace {

constexpr double minute_turn = 4.363323129985824e-3;  // of the Earth, radians

// How the day's samples stray from its circle: as chords, which are the angles but for 1e-6.
struct Stray {
    double most = 0.0;
    double most_rate = 0.0;  // per radian of the Earth's turn
    int steady_from = 0;     // steps from here on, and before steady_to, change slowly
    int steady_to = 0;
};

// Chords between samples and circle, and between one of these differences and the next.
void measure_stray(const SunTable& sun, const SunTableDay& day, const DayFrames& frames,
                   std::vector<double>& chords, std::vector<double>& rates) {
    const double sine = sin(day.declination);
    const double cosine = cos(day.declination);
    const double turn_cosine = std::cos(minute_turn);
    const double turn_sine = std::sin(minute_turn);
    double cos_hour = std::cos(day.start_hour_angle.in_radians());
    double sin_hour = std::sin(day.start_hour_angle.in_radians());
    Vec3 before;
    chords.reserve(day.sample_count);
    rates.reserve(day.sample_count);
    for (int i = 0; i < day.sample_count; ++i) {
        const Vec3 ideal = sine * frames.pole + cosine * cos_hour * frames.meridian +
                           Vec3{-cosine * sin_hour, 0.0, 0.0};
        const Vec3 off = sun.direction(day, i) - ideal;
        chords.push_back(dot(off, off));
        if (i > 0) rates.push_back(dot(off - before, off - before));
        before = off;
        const double turned = cos_hour * turn_cosine - sin_hour * turn_sine;
        sin_hour = sin_hour * turn_cosine + cos_hour * turn_sine;
        cos_hour = turned;
    }
}

Stray stray_of(const SunTable& sun, const SunTableDay& day, const DayFrames& frames) {
    std::vector<double> chords;
    std::vector<double> rates;
    measure_stray(sun, day, frames, chords, rates);
    // Directions are rounded to 6e-8, which is 3e-5 of a minute's turn.
    constexpr double rounding = 1e-4;
    const double steady = static_cast<double>(steady_stray_rate) - rounding;
    const double square = steady * steady * minute_turn * minute_turn;
    const auto is_fast = [&](double rate) { return rate > square; };
    const auto middle = rates.begin() + static_cast<std::ptrdiff_t>(rates.size() / 2);
    const auto last_fast = std::find_if(std::make_reverse_iterator(middle), rates.rend(), is_fast);
    const auto first_fast = std::find_if(middle, rates.end(), is_fast);
    return {.most = std::sqrt(*std::max_element(chords.begin(), chords.end())) + 1e-6,
            .most_rate =
                std::sqrt(*std::max_element(rates.begin(), rates.end())) / minute_turn + rounding,
            .steady_from = static_cast<int>(rates.rend() - last_fast),
            .steady_to = static_cast<int>(first_fast - rates.begin())};
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
        const Stray stray = stray_of(sun, day, frames);
        const double cosine = cos(day.declination);
        const double start = day.start_hour_angle.in_radians();
        frames.tan_declination.push_back(static_cast<float>(tan(day.declination)));
        frames.stray_over_cos.push_back(static_cast<float>(stray.most / cosine));
        frames.stray_rate_over_cos.push_back(static_cast<float>(stray.most_rate / cosine));
        frames.steady_from.push_back(static_cast<float>(start + stray.steady_from * minute_turn));
        frames.steady_to.push_back(static_cast<float>(start + stray.steady_to * minute_turn));
        frames.start_hour_angle.push_back(static_cast<float>(start));
        frames.last_sample.push_back(static_cast<float>(day.sample_count - 1));
        frames.first_sample.push_back(static_cast<std::int32_t>(day.first_sample));
        add_to_group(frames, day.declination, stray.most);
    }
    // Days that have no sample fill the last group.
    while (frames.tan_declination.size() % days_at_once != 0) {
        frames.tan_declination.push_back(0.0F);
        for (auto* column : {&frames.stray_over_cos, &frames.stray_rate_over_cos,
                             &frames.steady_from, &frames.steady_to}) {
            column->push_back(0.0F);
        }
        frames.start_hour_angle.push_back(0.0F);
        frames.last_sample.push_back(-1.0F);
        frames.first_sample.push_back(0);
    }
    frames.directions.assign(sun.directions().begin(), sun.directions().end());
    constexpr auto spare_floats = static_cast<std::size_t>(row_floats * 2 * days_at_once + 1);
    frames.directions.resize(frames.directions.size() + spare_floats, 0.0F);
    return frames;
}

}  // namespace sunfleck::rays
