#include "sun/nutation.h"

#include "sunfleck/base/units.h"

#include <array>
#include <cmath>

namespace sunfleck::sun {
namespace {

/// Multiples of the five arguments and amplitudes in 0.0001 arcsec, with their change a century.
struct Term {
    int d, m, mp, f, node;
    double sine, sine_rate;      ///< of the nutation in longitude
    double cosine, cosine_rate;  ///< of the nutation in obliquity
};

// clang-format off
constexpr std::array<Term, 30> terms{{
    { 0,  0,  0, 0, 1, -171996, -174.2, 92025,  8.9},
    {-2,  0,  0, 2, 2,  -13187,   -1.6,  5736, -3.1},
    { 0,  0,  0, 2, 2,   -2274,   -0.2,   977, -0.5},
    { 0,  0,  0, 0, 2,    2062,    0.2,  -895,  0.5},
    { 0,  1,  0, 0, 0,    1426,   -3.4,    54, -0.1},
    { 0,  0,  1, 0, 0,     712,    0.1,    -7,  0.0},
    {-2,  1,  0, 2, 2,    -517,    1.2,   224, -0.6},
    { 0,  0,  0, 2, 1,    -386,   -0.4,   200,  0.0},
    { 0,  0,  1, 2, 2,    -301,    0.0,   129, -0.1},
    {-2, -1,  0, 2, 2,     217,   -0.5,   -95,  0.3},
    {-2,  0,  1, 0, 0,    -158,    0.0,     0,  0.0},
    {-2,  0,  0, 2, 1,     129,    0.1,   -70,  0.0},
    { 0,  0, -1, 2, 2,     123,    0.0,   -53,  0.0},
    { 2,  0,  0, 0, 0,      63,    0.0,     0,  0.0},
    { 0,  0,  1, 0, 1,      63,    0.1,   -33,  0.0},
    { 2,  0, -1, 2, 2,     -59,    0.0,    26,  0.0},
    { 0,  0, -1, 0, 1,     -58,   -0.1,    32,  0.0},
    { 0,  0,  1, 2, 1,     -51,    0.0,    27,  0.0},
    {-2,  0,  2, 0, 0,      48,    0.0,     0,  0.0},
    { 0,  0, -2, 2, 1,      46,    0.0,   -24,  0.0},
    { 2,  0,  0, 2, 2,     -38,    0.0,    16,  0.0},
    { 0,  0,  2, 2, 2,     -31,    0.0,    13,  0.0},
    { 0,  0,  2, 0, 0,      29,    0.0,     0,  0.0},
    {-2,  0,  1, 2, 2,      29,    0.0,   -12,  0.0},
    { 0,  0,  0, 2, 0,      26,    0.0,     0,  0.0},
    {-2,  0,  0, 2, 0,     -22,    0.0,     0,  0.0},
    { 0,  0, -1, 2, 1,      21,    0.0,   -10,  0.0},
    { 0,  2,  0, 0, 0,      17,   -0.1,     0,  0.0},
    { 2,  0, -1, 0, 1,      16,    0.0,    -8,  0.0},
    {-2,  2,  0, 2, 2,     -16,    0.1,     7,  0.0},
}};
// clang-format on

constexpr double arcsec_rad = Angle::degrees(1.0 / 3600.0).in_radians();

/// The arguments of the terms, radians; T in the formulas is `centuries`.
struct Arguments {
    double d;     ///< mean elongation of the moon from the sun
    double m;     ///< mean anomaly of the sun
    double mp;    ///< mean anomaly of the moon
    double f;     ///< the moon's argument of latitude
    double node;  ///< longitude of the moon's ascending node
};

Arguments arguments(double t) {
    const auto rad = [](double degrees) { return Angle::degrees(degrees).in_radians(); };
    return {.d = rad(297.85036 + t * (445267.111480 + t * (-0.0019142 + t / 189474.0))),
            .m = rad(357.52772 + t * (35999.050340 + t * (-0.0001603 - t / 300000.0))),
            .mp = rad(134.96298 + t * (477198.867398 + t * (0.0086972 + t / 56250.0))),
            .f = rad(93.27191 + t * (483202.017538 + t * (-0.0036825 + t / 327270.0))),
            .node = rad(125.04452 + t * (-1934.136261 + t * (0.0020708 + t / 450000.0)))};
}

}  // namespace

Nutation nutation(double centuries) {
    const Arguments a = arguments(centuries);
    double longitude = 0.0;
    double obliquity = 0.0;
    for (const Term& term : terms) {
        const double angle =
            term.d * a.d + term.m * a.m + term.mp * a.mp + term.f * a.f + term.node * a.node;
        longitude += (term.sine + term.sine_rate * centuries) * std::sin(angle);
        obliquity += (term.cosine + term.cosine_rate * centuries) * std::cos(angle);
    }
    return {.longitude_rad = longitude * 1e-4 * arcsec_rad,
            .obliquity_rad = obliquity * 1e-4 * arcsec_rad};
}

double mean_obliquity_rad(double t) {
    return arcsec_rad *
           (84381.406 + t * (-46.836769 + t * (-0.0001831 + t * (0.00200340 - 5.76e-7 * t))));
}

}  // namespace sunfleck::sun
