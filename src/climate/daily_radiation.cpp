#include "sunfleck/climate/daily_radiation.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunfleck::climate {
namespace {

constexpr double solar_constant_mj_m2_min = 0.0820;
constexpr double stefan_boltzmann_mj_k4_m2_d = 4.903e-9;

double year_angle(int day_of_year) {
    return 2.0 * std::numbers::pi / 365.0 * day_of_year;
}

double fourth_power_k(double air_c) {
    const double square = (air_c + 273.16) * (air_c + 273.16);
    return square * square;
}

}  // namespace

double inverse_relative_distance(int day_of_year) {
    return 1.0 + 0.033 * std::cos(year_angle(day_of_year));
}

Angle simple_declination(int day_of_year) {
    return Angle::radians(0.409 * std::sin(year_angle(day_of_year) - 1.39));
}

Angle sunset_hour_angle(Latitude latitude, int day_of_year) {
    const double cosine = -tan(latitude.angle()) * tan(simple_declination(day_of_year));
    return Angle::radians(std::acos(std::clamp(cosine, -1.0, 1.0)));
}

double extraterrestrial_mj_m2(Latitude latitude, int day_of_year) {
    const Angle declination = simple_declination(day_of_year);
    const Angle sunset = sunset_hour_angle(latitude, day_of_year);
    const double up = sunset.in_radians() * sin(latitude.angle()) * sin(declination) +
                      cos(latitude.angle()) * cos(declination) * sin(sunset);
    const double whole = 24.0 * 60.0 / std::numbers::pi * solar_constant_mj_m2_min *
                         inverse_relative_distance(day_of_year) * up;
    return std::max(0.0, whole);
}

double daylight_h(Latitude latitude, int day_of_year) {
    return 24.0 / std::numbers::pi * sunset_hour_angle(latitude, day_of_year).in_radians();
}

double global_from_sunshine_mj_m2(double sunshine_h, double possible_h,
                                  double extraterrestrial_mj_m2, const AngstromRelation& relation) {
    const double share = possible_h > 0.0 ? std::clamp(sunshine_h / possible_h, 0.0, 1.0) : 0.0;
    return (relation.overcast_fraction + relation.sun_fraction * share) * extraterrestrial_mj_m2;
}

double sunshine_from_global_h(double global_mj_m2, double possible_h, double extraterrestrial_mj_m2,
                              const AngstromRelation& relation) {
    if (!(extraterrestrial_mj_m2 > 0.0) || !(relation.sun_fraction > 0.0)) return 0.0;
    const double share = (global_mj_m2 / extraterrestrial_mj_m2 - relation.overcast_fraction) /
                         relation.sun_fraction;
    return std::clamp(share, 0.0, 1.0) * possible_h;
}

double clear_sky_mj_m2(double elevation_m, double extraterrestrial_mj_m2) {
    return (0.75 + 2e-5 * elevation_m) * extraterrestrial_mj_m2;
}

double net_shortwave_mj_m2(double global_mj_m2, double albedo) {
    return (1.0 - albedo) * global_mj_m2;
}

double net_longwave_mj_m2(const LongwaveDay& day) {
    const double surface =
        stefan_boltzmann_mj_k4_m2_d * 0.5 * (fourth_power_k(day.max_c) + fourth_power_k(day.min_c));
    const double humidity = 0.34 - 0.14 * std::sqrt(std::max(0.0, day.vapour_pressure_kpa));
    const double cloud = 1.35 * std::clamp(day.clearness, 0.0, 1.0) - 0.35;
    return surface * humidity * cloud;
}

}  // namespace sunfleck::climate
