#pragma once

#include "sunfleck/base/units.h"

/// Radiation of a day from its calendar and its weather, by the equations of FAO Irrigation and
/// Drainage Paper 56 (1998), chapter 3; numbers of equations are that paper's. MJ m-2 d-1.
///
/// The paper's sun is a simple one: within 0.8 MJ m-2 d-1 and 0.23 h of the true sun between 60
/// degrees north and south. It belongs to the paper's method; hours of sun at a spot come from
/// the true sun.
namespace sunfleck::climate {

/// Extraterrestrial radiation on the level (eq. 21). `day_of_year` 1 to 366. All latitudes: in
/// polar night 0, in polar day the sunset hour angle is half a turn.
[[nodiscard]] double extraterrestrial_mj_m2(Latitude latitude, int day_of_year);
/// Its parts, as the paper names them (eqs. 23, 24, 25).
[[nodiscard]] double inverse_relative_distance(int day_of_year);
[[nodiscard]] Angle simple_declination(int day_of_year);
[[nodiscard]] Angle sunset_hour_angle(Latitude latitude, int day_of_year);
/// Longest possible sunshine, hours (eq. 34).
[[nodiscard]] double daylight_h(Latitude latitude, int day_of_year);

/// Angstrom's relation between sunshine and radiation: Rs = (a + b n/N) Ra (eq. 35).
struct AngstromRelation {
    double overcast_fraction = 0.25;  ///< a: of the extraterrestrial on a day without sun
    double sun_fraction = 0.50;       ///< b: more on a day of sun throughout
};
/// Global radiation from hours of sunshine; `sunshine_h` is held within 0 and the day's length.
[[nodiscard]] double global_from_sunshine_mj_m2(double sunshine_h, double possible_h,
                                                double extraterrestrial_mj_m2,
                                                const AngstromRelation& relation = {});
/// Hours of sunshine that give a global radiation: the same relation backwards, held within 0 and
/// the day's length.
[[nodiscard]] double sunshine_from_global_h(double global_mj_m2, double possible_h,
                                            double extraterrestrial_mj_m2,
                                            const AngstromRelation& relation = {});

/// Global radiation under a clear sky (eq. 37).
[[nodiscard]] double clear_sky_mj_m2(double elevation_m, double extraterrestrial_mj_m2);
/// Net short-wave radiation of the reference grass (eq. 38).
[[nodiscard]] double net_shortwave_mj_m2(double global_mj_m2, double albedo = 0.23);
/// What a day's weather is made of for its long-wave loss.
struct LongwaveDay {
    double min_c = 0.0;
    double max_c = 0.0;
    double vapour_pressure_kpa = 0.0;
    double clearness = 1.0;  ///< Rs / Rso, 0 to 1
};
/// Net outgoing long-wave radiation (eq. 39); clearness above 1 counts as 1.
[[nodiscard]] double net_longwave_mj_m2(const LongwaveDay& day);

}  // namespace sunfleck::climate
