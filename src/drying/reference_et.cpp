#include "sunfleck/drying/reference_et.h"

#include "sunfleck/climate/air.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::drying {
namespace {

// Evaporating 1 mm takes 2.45 MJ m-2.
constexpr double mm_per_mj_m2 = 0.408;
constexpr double stefan_boltzmann_mj_k4_m2_h = 2.043e-10;

}  // namespace

double daily_reference_et_mm(const EtDay& day) {
    const double slope = climate::saturation_slope_kpa_c(day.air_mean_c);
    const double gamma = climate::psychrometric_constant_kpa_c(day.pressure_kpa);
    const double by_radiation =
        mm_per_mj_m2 * slope * (day.net_radiation_mj_m2 - day.soil_heat_mj_m2);
    const double by_air =
        gamma * 900.0 / (day.air_mean_c + 273.0) * day.wind_2_m_m_s * day.vapour_deficit_kpa;
    return (by_radiation + by_air) / (slope + gamma * (1.0 + 0.34 * day.wind_2_m_m_s));
}

double hourly_reference_et_mm(const EtHour& hour) {
    const double slope = climate::saturation_slope_kpa_c(hour.air_c);
    const double gamma = climate::psychrometric_constant_kpa_c(hour.pressure_kpa);
    const double deficit =
        climate::saturation_vapour_pressure_kpa(hour.air_c) - hour.vapour_pressure_kpa;
    const double by_radiation =
        mm_per_mj_m2 * slope * (hour.net_radiation_mj_m2 - hour.soil_heat_mj_m2);
    const double by_air = gamma * 37.0 / (hour.air_c + 273.0) * hour.wind_2_m_m_s * deficit;
    return (by_radiation + by_air) / (slope + gamma * (1.0 + 0.34 * hour.wind_2_m_m_s));
}

double hourly_soil_heat_mj_m2(double net_radiation_mj_m2, bool is_day) {
    return (is_day ? 0.1 : 0.5) * net_radiation_mj_m2;
}

double hourly_net_longwave_mj_m2(double air_c, double vapour_pressure_kpa, double clearness) {
    const double square = (air_c + 273.16) * (air_c + 273.16);
    return stefan_boltzmann_mj_k4_m2_h * square * square *
           (0.34 - 0.14 * std::sqrt(std::max(0.0, vapour_pressure_kpa))) *
           (1.35 * std::clamp(clearness, 0.0, 1.0) - 0.35);
}

}  // namespace sunfleck::drying
