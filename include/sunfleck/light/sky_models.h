#pragma once

#include "sunfleck/base/units.h"

/// Published models of the light of the sky, W/m2. Altitudes are apparent, that is with
/// refraction, where not said otherwise.
namespace sunfleck::light {

/// The sun's light at the mean distance of the earth, W/m2: total solar irradiance of Kopp &
/// Lean (2011, Geophys. Res. Lett. 38, L01706), from memory.
inline constexpr double solar_constant_w_m2 = 1361.0;

/// Light square to the sun above the air, W/m2, from the distance in astronomical units.
[[nodiscard]] double extraterrestrial_normal_w_m2(double distance_au);
/// The same by the day of the year, 1 to 366, for another solar constant: Spencer (1971, Search
/// 2:172). Within 0.3 % of the true distance's.
[[nodiscard]] double extraterrestrial_normal_by_day_w_m2(int day_of_year, double constant_w_m2);

/// Air that the sun's light passes, in atmospheres above the same height: Kasten & Young (1989,
/// Applied Optics 28:4735). From 1 at the zenith to 38 at the horizon; below it as at it.
[[nodiscard]] double relative_air_mass(Angle altitude_apparent);
/// The same in atmospheres of the sea's level.
[[nodiscard]] double absolute_air_mass(double relative, double pressure_kpa);

/// Light on the level and square to the sun.
struct SkyLight {
    double global_w_m2 = 0.0;       ///< on the level
    double beam_normal_w_m2 = 0.0;  ///< square to the sun (DNI)
    double diffuse_w_m2 = 0.0;      ///< on the level, from all the sky but the sun
};

/// A sky without a cloud.
struct ClearSkyInput {
    Angle altitude_apparent;
    double absolute_air_mass = 1.0;
    double linke_turbidity = 3.0;  ///< haze, at air mass 2: 2 clear and cold, 3 usual, 5 hazy
    double elevation_m = 0.0;
    double extraterrestrial_normal_w_m2 = solar_constant_w_m2;
};
/// Ineichen & Perez (2002, Solar Energy 73:151), without the enhancement that Perez added later.
/// The diffuse part is what the global has beyond the beam on the level. All zero with the sun at
/// the horizon or below. At a station 2317 m up, on a clear winter day over snow, it met measured
/// beam within 0.1 % and global within 3.3 % with a turbidity of 2.1.
[[nodiscard]] SkyLight clear_sky_ineichen_perez(const ClearSkyInput& input);

/// Global light split where it alone is known: Erbs, Klein & Duffie (1982, Solar Energy 28:293),
/// by the share of the extraterrestrial light that arrives. True altitude, not apparent. With the
/// sun lower than 3 degrees all is taken as diffuse.
[[nodiscard]] SkyLight split_erbs(double global_w_m2, Angle altitude_true,
                                  double extraterrestrial_normal_w_m2);
/// Its diffuse share of the global, from the clearness index; 0 to 1.
[[nodiscard]] double erbs_diffuse_fraction(double clearness_index);

/// The sky's diffuse light in two parts: one that comes from around the sun and goes with it, one
/// from all the sky alike. Hay & Davies (1980): the share of the first is beam normal over
/// extraterrestrial normal.
struct DiffuseParts {
    double circumsolar_w_m2 = 0.0;  ///< on the level
    double even_w_m2 = 0.0;         ///< on the level, under the whole sky
};
[[nodiscard]] DiffuseParts diffuse_parts(const SkyLight& sky, double extraterrestrial_normal_w_m2);

/// A plane that receives light.
struct Receiver {
    Angle tilt;          ///< 0 level, 90 degrees upright
    Angle incidence;     ///< between its normal and the sun
    Angle sun_altitude;  ///< apparent
    double ground_albedo = 0.20;
};
/// Light of the sky alone on an open tilted plane, W/m2, after Hay & Davies.
[[nodiscard]] double sky_light_on_plane_w_m2(const DiffuseParts& parts, const Receiver& receiver);
/// Light that level open ground throws on it, W/m2.
[[nodiscard]] double ground_light_on_plane_w_m2(double global_w_m2, const Receiver& receiver);

/// Photons of 400 to 700 nm in global light: micromoles a joule. 45 % of the energy at 4.48
/// umol/J: Faust & Logan (2018), HortScience 53:1250-1257.
inline constexpr double ppfd_umol_per_j = 0.45 * 4.48;

}  // namespace sunfleck::light
