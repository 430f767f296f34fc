#include "scene/magnetic_field.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sunfleck::scene {
namespace {

/// Gauss coefficients g and h, nT, and their change, nT a year.
struct Term {
    int n = 0;
    int m = 0;
    double g = 0.0;
    double h = 0.0;
    double g_change = 0.0;
    double h_change = 0.0;
};

constexpr int highest_degree = 6;
constexpr double epoch_year = 2020.0;
constexpr std::array<Term, 27> terms{{
    {1, 0, -29404.5, 0.0, 6.7, 0.0},
    {1, 1, -1450.7, 4652.9, 7.7, -25.1},
    {2, 0, -2500.0, 0.0, -11.5, 0.0},
    {2, 1, 2982.0, -2991.6, -7.1, -30.2},
    {2, 2, 1676.8, -734.8, -2.2, -23.9},
    {3, 0, 1363.9, 0.0, 2.8, 0.0},
    {3, 1, -2381.0, -82.2, -6.2, 5.7},
    {3, 2, 1236.2, 241.8, 3.4, -1.0},
    {3, 3, 525.7, -542.9, -12.2, 1.1},
    {4, 0, 903.1, 0.0, -1.1, 0.0},
    {4, 1, 809.4, 282.0, -1.6, 0.2},
    {4, 2, 86.2, -158.4, -6.0, 6.9},
    {4, 3, -309.4, 199.8, 5.4, 3.7},
    {4, 4, 47.9, -350.1, -5.5, -5.6},
    {5, 0, -234.4, 0.0},
    {5, 1, 363.1, 47.7},
    {5, 2, 187.8, 208.4},
    {5, 3, -140.7, -121.3},
    {5, 4, -151.2, 32.2},
    {5, 5, 13.7, 99.1},
    {6, 0, 65.9, 0.0},
    {6, 1, 65.6, -19.1},
    {6, 2, 73.0, 25.0},
    {6, 3, -121.5, 52.7},
    {6, 4, -36.2, -64.4},
    {6, 5, 13.5, 9.0},
    {6, 6, -64.7, 68.1},
}};

/// Schmidt semi-normalised Legendre functions of cos(colatitude) and their slopes.
struct Legendre {
    std::array<std::array<double, highest_degree + 1>, highest_degree + 1> p{};
    std::array<std::array<double, highest_degree + 1>, highest_degree + 1> slope{};

    Legendre(double cosine, double sine) {
        p[0][0] = 1.0;
        for (std::size_t n = 1; n <= highest_degree; ++n) {
            for (std::size_t m = 0; m < n; ++m) add_column(n, m, cosine, sine);
            const double factor = n == 1 ? 1.0 : std::sqrt(1.0 - 0.5 / static_cast<double>(n));
            p[n][n] = factor * sine * p[n - 1][n - 1];
            slope[n][n] = factor * (sine * slope[n - 1][n - 1] + cosine * p[n - 1][n - 1]);
        }
    }

  private:
    void add_column(std::size_t n, std::size_t m, double cosine, double sine) {
        const auto nn = static_cast<double>(n);
        const auto mm = static_cast<double>(m);
        const double root = std::sqrt(nn * nn - mm * mm);
        const double a = (2.0 * nn - 1.0) / root;
        p[n][m] = a * cosine * p[n - 1][m];
        slope[n][m] = a * (cosine * slope[n - 1][m] - sine * p[n - 1][m]);
        if (n < m + 2) return;
        const double b = std::sqrt((nn - 1.0) * (nn - 1.0) - mm * mm) / root;
        p[n][m] -= b * p[n - 2][m];
        slope[n][m] -= b * slope[n - 2][m];
    }
};

}  // namespace

std::optional<Angle> magnetic_declination(Latitude latitude, Longitude longitude, int year) {
    constexpr double longest_forecast_years = 20.0;
    constexpr double weakest_useful_nt = 6000.0;  // the model's own caution limit
    const double years =
        std::clamp(year - epoch_year, -longest_forecast_years, longest_forecast_years);
    const double cosine = sin(latitude.angle());
    const double sine = std::max(1e-6, cos(latitude.angle()));
    const double phi = longitude.angle().in_radians();
    const Legendre legendre(cosine, sine);
    double north_nt = 0.0;
    double east_nt = 0.0;
    for (const Term& term : terms) {
        const auto n = static_cast<std::size_t>(term.n);
        const auto m = static_cast<std::size_t>(term.m);
        const double g = term.g + years * term.g_change;
        const double h = term.h + years * term.h_change;
        const double c = std::cos(term.m * phi);
        const double s = std::sin(term.m * phi);
        north_nt += (g * c + h * s) * legendre.slope[n][m];
        east_nt += term.m * (g * s - h * c) * legendre.p[n][m] / sine;
    }
    if (std::hypot(north_nt, east_nt) < weakest_useful_nt) return std::nullopt;
    return Angle::radians(std::atan2(east_nt, north_nt));
}

}  // namespace sunfleck::scene
