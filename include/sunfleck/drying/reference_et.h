#pragma once

/// Reference evapotranspiration of a short, well-watered grass: Penman-Monteith as standardised
/// by Allen, Pereira, Raes & Smith (1998), FAO Irrigation and Drainage Paper 56.
namespace sunfleck::drying {

/// The weather of one day.
struct EtDay {
    double air_mean_c = 0.0;
    double vapour_deficit_kpa = 0.0;  ///< es - ea
    double wind_2_m_m_s = 0.0;
    double net_radiation_mj_m2 = 0.0;  ///< Rn
    double soil_heat_mj_m2 = 0.0;      ///< G; 0 over a day
    double pressure_kpa = 101.3;
};
/// Eq. 6, mm/d; below 0 where dew would form.
[[nodiscard]] double daily_reference_et_mm(const EtDay& day);

/// The weather of one hour.
struct EtHour {
    double air_c = 0.0;
    double vapour_pressure_kpa = 0.0;  ///< ea
    double wind_2_m_m_s = 0.0;
    double net_radiation_mj_m2 = 0.0;
    double soil_heat_mj_m2 = 0.0;
    double pressure_kpa = 101.3;
};
/// Eq. 53, mm/h; below 0 where dew would form.
[[nodiscard]] double hourly_reference_et_mm(const EtHour& hour);

/// Heat that goes into the ground in an hour (eqs. 45 and 46), by its net radiation: a tenth by
/// day, half by night.
[[nodiscard]] double hourly_soil_heat_mj_m2(double net_radiation_mj_m2, bool is_day);

/// Net outgoing long-wave radiation of one hour, MJ m-2 (eq. 39 for an hour); `clearness` is
/// Rs / Rso of the hour, at night that of the hours before sunset.
[[nodiscard]] double hourly_net_longwave_mj_m2(double air_c, double vapour_pressure_kpa,
                                               double clearness);

}  // namespace sunfleck::drying
