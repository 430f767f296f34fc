#pragma once

/// The air over a garden, by the equations of Allen, Pereira, Raes & Smith (1998), FAO Irrigation
/// and Drainage Paper 56, chapter 3. Numbers of equations are that paper's.
namespace sunfleck::climate {

/// Mean air pressure at a height above the sea, kPa (eq. 7). Heights from -400 to 5000 m.
[[nodiscard]] double air_pressure_kpa(double elevation_m);

/// Psychrometric constant, kPa per degree C (eq. 8), for an aspirated psychrometer.
[[nodiscard]] double psychrometric_constant_kpa_c(double pressure_kpa);

/// Saturation vapour pressure over water, kPa (eq. 11; Tetens' formula).
[[nodiscard]] double saturation_vapour_pressure_kpa(double air_c);
/// The same for a day: the mean of those at its highest and lowest temperature (eq. 12).
[[nodiscard]] double mean_saturation_vapour_pressure_kpa(double min_c, double max_c);
/// Slope of saturation vapour pressure against temperature, kPa per degree C (eq. 13).
[[nodiscard]] double saturation_slope_kpa_c(double air_c);

/// Actual vapour pressure, kPa, from what was measured.
[[nodiscard]] double vapour_pressure_of_dew_point_kpa(double dew_point_c);  ///< eq. 14
/// From a psychrometer (eq. 15); `instrument_per_c` is 0.000662 for an aspirated one.
[[nodiscard]] double vapour_pressure_of_psychrometer_kpa(double dry_c, double wet_c,
                                                         double pressure_kpa,
                                                         double instrument_per_c = 0.000662);
/// A day's, from its highest and lowest humidity and temperature (eq. 17); humidity 0 to 1.
struct DayHumidity {
    double min_c = 0.0;
    double max_c = 0.0;
    double least_fraction = 0.0;
    double most_fraction = 0.0;
};
[[nodiscard]] double vapour_pressure_of_humidity_kpa(const DayHumidity& day);
/// A day's, from its mean humidity (eq. 19).
[[nodiscard]] double vapour_pressure_of_mean_humidity_kpa(double min_c, double max_c,
                                                          double mean_fraction);

/// Wind 2 m above short grass, m/s, from that at another height (eq. 47). From 0.2 m up: below,
/// the profile it assumes has no wind.
[[nodiscard]] double wind_at_2_m_m_s(double wind_m_s, double height_m);

}  // namespace sunfleck::climate
