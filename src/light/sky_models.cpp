#include "sunfleck/light/sky_models.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunfleck::light {
namespace {

constexpr double sea_level_kpa = 101.325;
// The split takes a sun this low, as the sine of its altitude, for the clearness index at least;
// and no beam from one lower than 3 degrees.
constexpr double least_sine = 0.065;
constexpr Angle lowest_beam = Angle::degrees(3.0);
// Light around the sun on a plane over that on the level is not let grow without end.
constexpr double least_sine_for_ratio = 0.01745;

double up_share(Angle tilt) {
    return 0.5 * (1.0 + cos(tilt));
}

}  // namespace

double extraterrestrial_normal_w_m2(double distance_au) {
    return solar_constant_w_m2 / (distance_au * distance_au);
}

double extraterrestrial_normal_by_day_w_m2(int day_of_year, double constant_w_m2) {
    const double b = 2.0 * std::numbers::pi / 365.0 * (day_of_year - 1);
    const double inverse_square = 1.00011 + 0.034221 * std::cos(b) + 0.00128 * std::sin(b) +
                                  0.000719 * std::cos(2.0 * b) + 7.7e-05 * std::sin(2.0 * b);
    return constant_w_m2 * inverse_square;
}

double relative_air_mass(Angle altitude_apparent) {
    const double altitude_deg = std::max(0.0, altitude_apparent.in_degrees());
    return 1.0 / (sin(Angle::degrees(altitude_deg)) +
                  0.50572 * std::pow(6.07995 + altitude_deg, -1.6364));
}

double absolute_air_mass(double relative, double pressure_kpa) {
    return relative * pressure_kpa / sea_level_kpa;
}

SkyLight clear_sky_ineichen_perez(const ClearSkyInput& input) {
    const double sine = sin(input.altitude_apparent);
    if (!(sine > 0.0)) return {};
    const double h = input.elevation_m;
    const double turbidity = input.linke_turbidity;
    const double air = input.absolute_air_mass;
    const double top = input.extraterrestrial_normal_w_m2;
    const double fh1 = std::exp(-h / 8000.0);
    const double fh2 = std::exp(-h / 1250.0);
    const double cg1 = 5.09e-5 * h + 0.868;
    const double cg2 = 3.92e-5 * h + 0.0387;
    SkyLight sky;
    sky.global_w_m2 = cg1 * top * sine * std::exp(-cg2 * air * (fh1 + fh2 * (turbidity - 1.0)));
    const double b = 0.664 + 0.163 / fh1;
    const double beam = b * std::exp(-0.09 * air * (turbidity - 1.0)) * top;
    // The beam may not leave less diffuse light than a clear sky has.
    const double most_share = 1.0 - (0.1 - 0.2 * std::exp(-turbidity)) / (0.1 + 0.882 / fh1);
    const double most_beam = sky.global_w_m2 * std::max(0.0, most_share / sine);
    sky.beam_normal_w_m2 = std::min(std::max(0.0, beam), most_beam);
    sky.diffuse_w_m2 = sky.global_w_m2 - sky.beam_normal_w_m2 * sine;
    return sky;
}

double erbs_diffuse_fraction(double clearness_index) {
    const double kt = std::max(0.0, clearness_index);
    if (kt <= 0.22) return 1.0 - 0.09 * kt;
    if (kt > 0.80) return 0.165;
    return 0.9511 + kt * (-0.1604 + kt * (4.388 + kt * (-16.638 + kt * 12.336)));
}

SkyLight split_erbs(double global_w_m2, Angle altitude_true, double extraterrestrial_normal_w_m2) {
    SkyLight sky;
    sky.global_w_m2 = std::max(0.0, global_w_m2);
    sky.diffuse_w_m2 = sky.global_w_m2;
    const double sine = sin(altitude_true);
    if (altitude_true < lowest_beam || !(extraterrestrial_normal_w_m2 > 0.0)) return sky;
    const double kt = sky.global_w_m2 / (extraterrestrial_normal_w_m2 * std::max(sine, least_sine));
    sky.diffuse_w_m2 = erbs_diffuse_fraction(kt) * sky.global_w_m2;
    sky.beam_normal_w_m2 = (sky.global_w_m2 - sky.diffuse_w_m2) / sine;
    return sky;
}

DiffuseParts diffuse_parts(const SkyLight& sky, double extraterrestrial_normal_w_m2) {
    const double share =
        extraterrestrial_normal_w_m2 > 0.0
            ? std::clamp(sky.beam_normal_w_m2 / extraterrestrial_normal_w_m2, 0.0, 1.0)
            : 0.0;
    return {.circumsolar_w_m2 = share * sky.diffuse_w_m2,
            .even_w_m2 = (1.0 - share) * sky.diffuse_w_m2};
}

double sky_light_on_plane_w_m2(const DiffuseParts& parts, const Receiver& receiver) {
    const double on_plane = std::max(0.0, cos(receiver.incidence));
    const double on_level = std::max(least_sine_for_ratio, sin(receiver.sun_altitude));
    return parts.circumsolar_w_m2 * on_plane / on_level + parts.even_w_m2 * up_share(receiver.tilt);
}

double ground_light_on_plane_w_m2(double global_w_m2, const Receiver& receiver) {
    return global_w_m2 * receiver.ground_albedo * (1.0 - up_share(receiver.tilt));
}

}  // namespace sunfleck::light
