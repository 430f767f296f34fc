#pragma once

#include <cmath>
#include <compare>
#include <numbers>
#include <type_traits>

namespace sunfleck {

/// A plane angle. Made and read only by naming the unit; holds radians.
class Angle {
  public:
    constexpr Angle() = default;
    [[nodiscard]] static constexpr Angle radians(double value) { return Angle(value); }
    [[nodiscard]] static constexpr Angle degrees(double value) {
        return Angle(value * (std::numbers::pi / 180.0));
    }
    [[nodiscard]] constexpr double in_radians() const { return radians_; }
    [[nodiscard]] constexpr double in_degrees() const {
        return radians_ * (180.0 / std::numbers::pi);
    }

    constexpr auto operator<=>(const Angle&) const = default;
    constexpr Angle operator-() const { return Angle(-radians_); }
    friend constexpr Angle operator+(Angle a, Angle b) { return Angle(a.radians_ + b.radians_); }
    friend constexpr Angle operator-(Angle a, Angle b) { return Angle(a.radians_ - b.radians_); }
    friend constexpr Angle operator*(double factor, Angle a) { return Angle(factor * a.radians_); }

  private:
    constexpr explicit Angle(double radians) : radians_(radians) {}
    double radians_ = 0.0;
};

[[nodiscard]] inline double sin(Angle a) {
    return std::sin(a.in_radians());
}
[[nodiscard]] inline double cos(Angle a) {
    return std::cos(a.in_radians());
}
[[nodiscard]] inline double tan(Angle a) {
    return std::tan(a.in_radians());
}

/// Geographic latitude, north positive, -90 to 90 degrees; the reader checks the range.
class Latitude {
  public:
    constexpr Latitude() = default;
    [[nodiscard]] static constexpr Latitude degrees(double value) {
        return Latitude(Angle::degrees(value));
    }
    [[nodiscard]] constexpr Angle angle() const { return angle_; }
    [[nodiscard]] constexpr double in_degrees() const { return angle_.in_degrees(); }
    /// The equator counts as north: its seasons and picture sides follow the north's rule.
    [[nodiscard]] constexpr bool is_south() const { return angle_.in_radians() < 0.0; }
    constexpr auto operator<=>(const Latitude&) const = default;

  private:
    constexpr explicit Latitude(Angle angle) : angle_(angle) {}
    Angle angle_;
};

/// Geographic longitude, east positive, -180 to 180 degrees; the reader checks the range.
class Longitude {
  public:
    constexpr Longitude() = default;
    [[nodiscard]] static constexpr Longitude degrees(double value) {
        return Longitude(Angle::degrees(value));
    }
    [[nodiscard]] constexpr Angle angle() const { return angle_; }
    [[nodiscard]] constexpr double in_degrees() const { return angle_.in_degrees(); }
    constexpr auto operator<=>(const Longitude&) const = default;

  private:
    constexpr explicit Longitude(Angle angle) : angle_(angle) {}
    Angle angle_;
};

/// An instant: seconds of UTC (taken equal to UT1, no leap seconds) since 1970-01-01T00:00Z.
/// A double resolves better than a microsecond in every year the product accepts.
class UtcSeconds {
  public:
    constexpr UtcSeconds() = default;
    [[nodiscard]] static constexpr UtcSeconds since_1970(double seconds) {
        return UtcSeconds(seconds);
    }
    [[nodiscard]] constexpr double since_1970() const { return seconds_; }
    constexpr auto operator<=>(const UtcSeconds&) const = default;
    /// Later by `seconds`.
    [[nodiscard]] constexpr UtcSeconds plus_seconds(double seconds) const {
        return UtcSeconds(seconds_ + seconds);
    }
    /// Seconds from `earlier` to this instant.
    [[nodiscard]] constexpr double seconds_after(UtcSeconds earlier) const {
        return seconds_ - earlier.seconds_;
    }

  private:
    constexpr explicit UtcSeconds(double seconds) : seconds_(seconds) {}
    double seconds_ = 0.0;
};

static_assert(std::is_trivially_copyable_v<Angle> && std::is_trivially_copyable_v<Latitude> &&
              std::is_trivially_copyable_v<Longitude> && std::is_trivially_copyable_v<UtcSeconds>);

}  // namespace sunfleck
