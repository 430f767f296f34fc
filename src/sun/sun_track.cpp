#include "sunfleck/sun/sun_track.h"

#include "sun/topocentric.h"
#include "sun/turn.h"
#include "sunfleck/base/require.h"
#include "sunfleck/sun/apparent_sun.h"
#include "sunfleck/sun/refraction.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace sunfleck::sun {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double step_s = 43200.0;

/// What changes slowly.
struct Node {
    double equation_rad = 0.0;  ///< equation of time as an angle
    double declination_rad = 0.0;
    double distance_au = 0.0;
};

/// Weights of four equally spaced nodes at -1, 0, 1, 2 for a place `x` in [0, 1] (Lagrange).
std::array<double, 4> cubic_weights(double x) {
    return {-x * (x - 1.0) * (x - 2.0) / 6.0, (x * x - 1.0) * (x - 2.0) / 2.0,
            -x * (x + 1.0) * (x - 2.0) / 2.0, x * (x * x - 1.0) / 6.0};
}

}  // namespace

struct SunTrack::Nodes {
    Topocentric topocentric;
    double first_s;  ///< instant of nodes[0]
    std::vector<Node> nodes;

    Nodes(const Place& place, UtcSeconds from, UtcSeconds to)
        : topocentric(place), first_s((std::floor(from.since_1970() / step_s) - 1.0) * step_s) {
        const auto count =
            static_cast<std::size_t>(std::floor((to.since_1970() - first_s) / step_s)) + 3;
        for (std::size_t i = 0; i < count; ++i) {
            const ApparentSun sun =
                apparent_sun(UtcSeconds::since_1970(first_s + static_cast<double>(i) * step_s));
            nodes.push_back({.equation_rad = sun.equation_of_time_min * (pi / 720.0),
                             .declination_rad = sun.declination.in_radians(),
                             .distance_au = sun.distance_au});
        }
    }

    [[nodiscard]] Node slow(UtcSeconds instant) const {
        const double steps = (instant.since_1970() - first_s) / step_s;
        const std::size_t left =
            std::clamp(static_cast<std::size_t>(steps), std::size_t{1}, nodes.size() - 3);
        const std::array<double, 4> w = cubic_weights(steps - static_cast<double>(left));
        Node sum;
        for (std::size_t k = 0; k < 4; ++k) {
            const Node& node = nodes[left - 1 + k];
            sum.equation_rad += w[k] * node.equation_rad;
            sum.declination_rad += w[k] * node.declination_rad;
            sum.distance_au += w[k] * node.distance_au;
        }
        return sum;
    }

    [[nodiscard]] GeocentricSun at(UtcSeconds instant) const {
        const Node node = slow(instant);
        const double day_part = std::fmod(instant.since_1970(), 86400.0) / 86400.0;
        return {.greenwich_hour_angle_rad = 2.0 * pi * day_part - pi + node.equation_rad,
                .declination_rad = node.declination_rad,
                .distance_au = node.distance_au};
    }
};

SunTrack::SunTrack(const Place& place, UtcSeconds from, UtcSeconds to, const Air& air)
    : place_(place), air_(air), from_(from), to_(to) {
    SUNFLECK_REQUIRE(from <= to, "a sun track runs forward in time");
    nodes_ = std::make_shared<const Nodes>(place, from, to);
}

Vec3 SunTrack::true_direction(UtcSeconds instant) const {
    SUNFLECK_REQUIRE(from_ <= instant && instant <= to_, "an instant outside the sun track");
    return nodes_->topocentric.direction(nodes_->at(instant));
}

Vec3 SunTrack::apparent_direction(UtcSeconds instant) const {
    return sun::apparent_direction(true_direction(instant), air_);
}

Angle SunTrack::altitude_true(UtcSeconds instant) const {
    return altitude_of(true_direction(instant));
}

Angle SunTrack::hour_angle(UtcSeconds instant) const {
    SUNFLECK_REQUIRE(from_ <= instant && instant <= to_, "an instant outside the sun track");
    return Angle::radians(nodes_->topocentric.local(nodes_->at(instant)).hour_angle_rad);
}

double SunTrack::distance_au(UtcSeconds instant) const {
    SUNFLECK_REQUIRE(from_ <= instant && instant <= to_, "an instant outside the sun track");
    return nodes_->slow(instant).distance_au;
}

Angle SunTrack::disk_radius(UtcSeconds instant) const {
    return sun_disk_radius(distance_au(instant));
}

Angle sun_disk_radius(double distance_au) {
    return Angle::degrees(0.533 / 2.0 / distance_au);
}

}  // namespace sunfleck::sun
