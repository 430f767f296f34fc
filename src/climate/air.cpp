#include "sunfleck/climate/air.h"

#include "sunfleck/base/require.h"

#include <cmath>

namespace sunfleck::climate {

double air_pressure_kpa(double elevation_m) {
    return 101.3 * std::pow((293.0 - 0.0065 * elevation_m) / 293.0, 5.26);
}

double psychrometric_constant_kpa_c(double pressure_kpa) {
    return 0.665e-3 * pressure_kpa;
}

double saturation_vapour_pressure_kpa(double air_c) {
    return 0.6108 * std::exp(17.27 * air_c / (air_c + 237.3));
}

double mean_saturation_vapour_pressure_kpa(double min_c, double max_c) {
    return 0.5 * (saturation_vapour_pressure_kpa(min_c) + saturation_vapour_pressure_kpa(max_c));
}

double saturation_slope_kpa_c(double air_c) {
    const double from_zero = air_c + 237.3;
    return 4098.0 * saturation_vapour_pressure_kpa(air_c) / (from_zero * from_zero);
}

double vapour_pressure_of_dew_point_kpa(double dew_point_c) {
    return saturation_vapour_pressure_kpa(dew_point_c);
}

double vapour_pressure_of_psychrometer_kpa(double dry_c, double wet_c, double pressure_kpa,
                                           double instrument_per_c) {
    return saturation_vapour_pressure_kpa(wet_c) -
           instrument_per_c * pressure_kpa * (dry_c - wet_c);
}

double vapour_pressure_of_humidity_kpa(const DayHumidity& day) {
    return 0.5 * (saturation_vapour_pressure_kpa(day.min_c) * day.most_fraction +
                  saturation_vapour_pressure_kpa(day.max_c) * day.least_fraction);
}

double vapour_pressure_of_mean_humidity_kpa(double min_c, double max_c, double mean_fraction) {
    return mean_fraction * mean_saturation_vapour_pressure_kpa(min_c, max_c);
}

double wind_at_2_m_m_s(double wind_m_s, double height_m) {
    SUNFLECK_REQUIRE(height_m >= 0.2, "wind is measured well above the grass");
    return wind_m_s * 4.87 / std::log(67.8 * height_m - 5.42);
}

}  // namespace sunfleck::climate
