#include "sunfleck/sun/refraction.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::sun {
namespace {

constexpr double zero_c_k = 273.0;  ///< as the scaling's source rounds it

}  // namespace

Angle refraction(Angle altitude_true, const Air& air) {
    constexpr double lowest_deg = -1.0;
    const double warmth = (zero_c_k + air.temperature_c) / 283.0;
    const double density = air.pressure_hpa / 1010.0 / warmth;
    const double h = std::max(lowest_deg, altitude_true.in_degrees());
    const double argument_deg = h + 10.3 * std::pow(warmth, 0.4) / (h + 5.11);
    return Angle::degrees(std::max(0.0, density * 1.02 / 60.0 / tan(Angle::degrees(argument_deg))));
}

Angle noaa_refraction(Angle altitude_true) {
    const double h = altitude_true.in_degrees();
    if (h > 85.0) return {};
    const double t = tan(altitude_true);
    double arcsec = -20.772 / t;
    if (h > 5.0) {
        arcsec = 58.1 / t - 0.07 / (t * t * t) + 0.000086 / (t * t * t * t * t);
    } else if (h > -0.575) {
        arcsec = 1735.0 + h * (-518.2 + h * (103.4 + h * (-12.79 + h * 0.711)));
    }
    return Angle::degrees(arcsec / 3600.0);
}

Vec3 apparent_direction(Vec3 d, const Air& air) {
    const double level = std::sqrt(d.x * d.x + d.y * d.y);
    // Straight up or down the lift is nothing and its plane is undefined.
    constexpr double straight = 1e-9;
    if (level < straight) return d;
    const Angle lift = refraction(Angle::radians(std::atan2(d.z, level)), air);
    const double sine = sin(lift);
    const double cosine = cos(lift);
    const double shrink = (level * cosine - d.z * sine) / level;
    return {d.x * shrink, d.y * shrink, d.z * cosine + level * sine};
}

}  // namespace sunfleck::sun
