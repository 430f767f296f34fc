#pragma once

#include <cmath>

namespace sunfleck {

/// A point or direction in metres: x east, y north (true), z up.
struct Vec3 {
    double x = 0.0;
    double y = 0.0;
    double z = 0.0;
    constexpr bool operator==(const Vec3&) const = default;
    friend constexpr Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
    friend constexpr Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
    friend constexpr Vec3 operator-(Vec3 a) { return {-a.x, -a.y, -a.z}; }
    friend constexpr Vec3 operator*(double k, Vec3 a) { return {k * a.x, k * a.y, k * a.z}; }
};

[[nodiscard]] constexpr double dot(Vec3 a, Vec3 b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
}
[[nodiscard]] constexpr Vec3 cross(Vec3 a, Vec3 b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
[[nodiscard]] inline double length(Vec3 a) {
    return std::sqrt(dot(a, a));
}
/// The unit vector along `a`; `a` must not be zero.
[[nodiscard]] inline Vec3 normalised(Vec3 a) {
    return (1.0 / length(a)) * a;
}

/// A point in the user's plan, metres: x to the right, y up the sheet (see scene::PlanFrame).
struct Vec2 {
    double x = 0.0;
    double y = 0.0;
    constexpr bool operator==(const Vec2&) const = default;
    friend constexpr Vec2 operator+(Vec2 a, Vec2 b) { return {a.x + b.x, a.y + b.y}; }
    friend constexpr Vec2 operator-(Vec2 a, Vec2 b) { return {a.x - b.x, a.y - b.y}; }
    friend constexpr Vec2 operator*(double k, Vec2 a) { return {k * a.x, k * a.y}; }
};

[[nodiscard]] constexpr double dot(Vec2 a, Vec2 b) {
    return a.x * b.x + a.y * b.y;
}
/// z of the cross product: positive when b lies to the left of a.
[[nodiscard]] constexpr double cross(Vec2 a, Vec2 b) {
    return a.x * b.y - a.y * b.x;
}
[[nodiscard]] inline double length(Vec2 a) {
    return std::sqrt(dot(a, a));
}

}  // namespace sunfleck
