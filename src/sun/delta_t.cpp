#include "sunfleck/sun/delta_t.h"

#include <initializer_list>

namespace sunfleck::sun {
namespace {

/// Coefficients in ascending powers.
double polynomial(double x, std::initializer_list<double> coefficients) {
    double total = 0.0;
    for (auto it = coefficients.end(); it != coefficients.begin();) {
        total = total * x + *--it;
    }
    return total;
}

/// Years counted evenly from 2000.0. The source's year stands still within a month, which would
/// make the sun jump by a few thousandths of an arcsecond.
double decimal_year(UtcSeconds instant) {
    constexpr double year_2000_s = 946684800.0;
    return 2000.0 + (instant.since_1970() - year_2000_s) / (365.25 * 86400.0);
}

double long_term(double year) {
    const double u = (year - 1820.0) / 100.0;
    return -20.0 + 32.0 * u * u;
}

}  // namespace

double delta_t_s(UtcSeconds instant) {
    const double y = decimal_year(instant);
    if (y < 1700.0) return long_term(y);
    if (y < 1800.0) {
        return polynomial(y - 1700.0, {8.83, 0.1603, -0.0059285, 0.00013336, -1.0 / 1174000.0});
    }
    if (y < 1860.0) {
        return polynomial(y - 1800.0, {13.72, -0.332447, 0.0068612, 0.0041116, -0.00037436,
                                       0.0000121272, -0.0000001699, 0.000000000875});
    }
    if (y < 1900.0) {
        return polynomial(y - 1860.0,
                          {7.62, 0.5737, -0.251754, 0.01680668, -0.0004473624, 1.0 / 233174.0});
    }
    if (y < 1920.0) {
        return polynomial(y - 1900.0, {-2.79, 1.494119, -0.0598939, 0.0061966, -0.000197});
    }
    if (y < 1941.0) return polynomial(y - 1920.0, {21.20, 0.84493, -0.076100, 0.0020936});
    if (y < 1961.0) return polynomial(y - 1950.0, {29.07, 0.407, -1.0 / 233.0, 1.0 / 2547.0});
    if (y < 1986.0) return polynomial(y - 1975.0, {45.45, 1.067, -1.0 / 260.0, -1.0 / 718.0});
    if (y < 2005.0) {
        return polynomial(y - 2000.0,
                          {63.86, 0.3345, -0.060374, 0.0017275, 0.000651814, 0.00002373599});
    }
    if (y < 2050.0) return polynomial(y - 2000.0, {62.92, 0.32217, 0.005589});
    if (y < 2150.0) return long_term(y) - 0.5628 * (2150.0 - y);
    return long_term(y);
}

}  // namespace sunfleck::sun
