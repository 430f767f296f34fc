#include "sunfleck/light/clear_sky.h"

#include "sunfleck/base/require.h"
#include "sunfleck/sun/refraction.h"
#include "sunfleck/sun/solar_position.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace sunfleck::light {

namespace {

constexpr double sample_step_s = 300.0;
constexpr double seconds_per_hour = 3600.0;

double irradiance_w_m2(UtcSeconds instant, const sun::Place& place) {
    const Angle altitude = sun::solar_position(instant, place).altitude_true;
    return haurwitz_global_w_m2(altitude + sun::refraction(altitude));
}

/// Overlap of a span with [from, to], seconds; 0 when they do not meet.
double overlap_s(const exposure::SunSpan& span, UtcSeconds from, UtcSeconds to) {
    return std::max(0.0, std::min(span.to, to).seconds_after(std::max(span.from, from)));
}

}  // namespace

double haurwitz_global_w_m2(Angle altitude_apparent) {
    const double cos_zenith = sin(altitude_apparent);
    if (cos_zenith <= 0.0) {
        return 0.0;
    }
    return 1098.0 * cos_zenith * std::exp(-0.059 / cos_zenith);
}

ClearDay::ClearDay(Date date, const sun::SunDay& sun_day, const sun::Place& place)
    : date_(date), sun_day_(sun_day) {
    const double length_s = sun_day_.up_to.seconds_after(sun_day_.up_from);
    const auto step_count = static_cast<std::size_t>(std::ceil(length_s / sample_step_s));
    light_until_wh_m2_.assign(1, 0.0);
    light_until_wh_m2_.reserve(step_count + 1);
    double before_w_m2 = irradiance_w_m2(sun_day_.up_from, place);
    for (std::size_t step = 1; step <= step_count; ++step) {
        const double until_s = static_cast<double>(step) * sample_step_s;
        const double now_w_m2 = irradiance_w_m2(sun_day_.up_from.plus_seconds(until_s), place);
        const double mean_w_m2 = 0.5 * (before_w_m2 + now_w_m2);
        light_until_wh_m2_.push_back(light_until_wh_m2_.back() +
                                     mean_w_m2 * (sample_step_s / seconds_per_hour));
        before_w_m2 = now_w_m2;
    }
}

double ClearDay::sun_up_min() const {
    return sun_day_.up_to.seconds_after(sun_day_.up_from) / 60.0;
}

double ClearDay::light_until_wh_m2(UtcSeconds instant) const {
    const UtcSeconds within = std::clamp(instant, sun_day_.up_from, sun_day_.up_to);
    const double place_in_table = within.seconds_after(sun_day_.up_from) / sample_step_s;
    const auto before = static_cast<std::size_t>(place_in_table);
    if (before + 1 >= light_until_wh_m2_.size()) {
        return light_until_wh_m2_.back();
    }
    const double share = place_in_table - static_cast<double>(before);
    return light_until_wh_m2_[before] +
           share * (light_until_wh_m2_[before + 1] - light_until_wh_m2_[before]);
}

double ClearDay::light_wh_m2(UtcSeconds from, UtcSeconds to) const {
    return to > from ? light_until_wh_m2(to) - light_until_wh_m2(from) : 0.0;
}

double ClearDay::open_light_wh_m2() const {
    return light_until_wh_m2(sun_day_.up_to);
}

double sun_light_wh_m2(const exposure::DayExposure& day, const ClearDay& clear_day) {
    SUNFLECK_REQUIRE(day.date == clear_day.date(), "the clear day is of another date");
    double light_wh_m2 = 0.0;
    for (const exposure::HourExposure& hour : day.hours) {
        if (!(hour.minutes.effective_min > 0.0)) {
            continue;
        }
        const UtcSeconds from = std::max(hour.from, clear_day.sun_day().up_from);
        const UtcSeconds to =
            std::min(hour.from.plus_seconds(seconds_per_hour), clear_day.sun_day().up_to);
        // Mean irradiance over the sunny part of the hour; over all of it when no span of sun
        // falls into the hour.
        double weighted_wh_m2 = 0.0;
        double weighted_s = 0.0;
        for (const exposure::SunSpan& span : day.spans) {
            const double seconds = overlap_s(span, from, to);
            if (seconds > 0.0 && span.transmittance > 0.0) {
                weighted_wh_m2 +=
                    span.transmittance *
                    clear_day.light_wh_m2(std::max(span.from, from), std::min(span.to, to));
                weighted_s += span.transmittance * seconds;
            }
        }
        if (!(weighted_s > 0.0)) {
            weighted_wh_m2 = clear_day.light_wh_m2(from, to);
            weighted_s = to.seconds_after(from);
        }
        if (weighted_s > 0.0) {
            light_wh_m2 += hour.minutes.effective_min * 60.0 * (weighted_wh_m2 / weighted_s);
        }
    }
    return light_wh_m2;
}

}  // namespace sunfleck::light
