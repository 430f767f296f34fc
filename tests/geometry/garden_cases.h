#pragma once

#include "sunfleck/geometry/garden.h"

#include <cmath>
#include <cstdint>
#include <random>
#include <string>

/// Small gardens, rays and random numbers for the tests of geometry.
namespace sunfleck::geometry {

inline const Date any_day = make_date(2026, 6, 21);

/// Towards the sun: azimuth clockwise from north.
inline Vec3 to_sun(double altitude_deg, double azimuth_deg) {
    const Angle altitude = Angle::degrees(altitude_deg);
    const Angle azimuth = Angle::degrees(azimuth_deg);
    return {cos(altitude) * sin(azimuth), cos(altitude) * cos(azimuth), sin(altitude)};
}

/// Unit vector on the ground along a bearing.
inline Vec3 on_ground(double bearing_deg) {
    return to_sun(0.0, bearing_deg);
}

inline scene::Label label(const std::string& id) {
    return {id, id, "/" + id};
}

/// Light that reaches `origin` from `direction` through all pieces.
inline double light_at(const Garden& garden, Vec3 origin, Vec3 direction, Date date = any_day) {
    double light = 1.0;
    for (const Piece& piece : garden.pieces) {
        light *= pass(piece, optics_on(piece, date), origin, direction).transmittance;
    }
    return light;
}

inline Piece piece_of(Body body) {
    Piece piece;
    piece.body = std::move(body);
    fit_box(piece);
    return piece;
}

/// The place between `dark` and `lit` where the light changes, as metres from `dark`.
template <typename IsLit>
double edge_m(IsLit is_lit, double dark_m, double lit_m) {
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (dark_m + lit_m);
        (is_lit(middle) ? lit_m : dark_m) = middle;
    }
    return 0.5 * (dark_m + lit_m);
}

/// Reproducible on every machine: the bits of mt19937_64 as a fraction.
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : bits_(seed) {}
    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(bits_() >> 11U) * 0x1.0p-53;
    }
    Vec3 point(double reach) {
        return {between(-reach, reach), between(-reach, reach), between(-reach, reach)};
    }
    Vec3 direction() {
        while (true) {
            const Vec3 p = point(1.0);
            if (length(p) <= 1.0 && length(p) > 0.1) return normalised(p);
        }
    }

  private:
    std::mt19937_64 bits_;
};

}  // namespace sunfleck::geometry
