#include "sunfleck/sun/sun_day.h"

#include "sunfleck/sun/sun_track.h"

#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace sunfleck::sun {
namespace {

constexpr double half_day_s = 43200.0;
constexpr double sample_step_s = 600.0;

enum class Crossing { up, down };

/// Height of the sun above an altitude, as a function of time.
class Clearance {
  public:
    Clearance(const SunTrack& track, Angle threshold) : track_(track), threshold_(threshold) {}
    [[nodiscard]] double at(UtcSeconds instant) const {
        return (track_.altitude_true(instant) - threshold_).in_radians();
    }

  private:
    const SunTrack& track_;
    Angle threshold_;
};

struct Sample {
    UtcSeconds instant;
    double height = 0.0;
};

/// The extreme of `clearance` between two instants by golden section, to half a second: the
/// highest if `sign` is 1, the lowest if -1.
Sample extreme(const Clearance& clearance, UtcSeconds from, UtcSeconds to, double sign) {
    constexpr double ratio = std::numbers::phi - 1.0;
    double width = to.seconds_after(from);
    Sample left{from.plus_seconds((1.0 - ratio) * width), 0.0};
    Sample right{from.plus_seconds(ratio * width), 0.0};
    left.height = clearance.at(left.instant);
    right.height = clearance.at(right.instant);
    while (width > 0.5) {
        if (sign * left.height > sign * right.height) {
            to = right.instant;
            right = left;
            width = to.seconds_after(from);
            left.instant = from.plus_seconds((1.0 - ratio) * width);
            left.height = clearance.at(left.instant);
        } else {
            from = left.instant;
            left = right;
            width = to.seconds_after(from);
            right.instant = from.plus_seconds(ratio * width);
            right.height = clearance.at(right.instant);
        }
    }
    return sign * left.height > sign * right.height ? left : right;
}

/// Heights every ten minutes, and between them the turning points that an even step would jump
/// over: a sun that only just clears the horizon, or only just dips below it.
std::vector<Sample> samples(const Clearance& clearance, UtcSeconds from, UtcSeconds to) {
    const int steps = static_cast<int>(std::ceil(to.seconds_after(from) / sample_step_s));
    std::vector<Sample> all;
    for (int i = 0; i <= steps; ++i) {
        const UtcSeconds t =
            i == steps ? to : from.plus_seconds(static_cast<double>(i) * sample_step_s);
        all.push_back({t, clearance.at(t)});
    }
    std::vector<Sample> refined{all.front()};
    for (std::size_t i = 0; i + 1 < all.size(); ++i) {
        const Sample& a = all[i];
        const Sample& b = all[i + 1];
        const double before = i > 0 ? all[i - 1].height : a.height;
        const double after = i + 2 < all.size() ? all[i + 2].height : b.height;
        const double sign = a.height < 0.0 ? 1.0 : -1.0;
        const bool same_side = (a.height < 0.0) == (b.height < 0.0);
        const bool may_turn = sign * (a.height - before) >= 0.0 && sign * (b.height - after) >= 0.0;
        if (same_side && may_turn) {
            refined.push_back(extreme(clearance, a.instant, b.instant, sign));
        }
        refined.push_back(b);
    }
    return refined;
}

/// Bisects a bracketed crossing to a thousandth of a second.
UtcSeconds crossing_between(const Clearance& clearance, UtcSeconds below, UtcSeconds above) {
    while (std::fabs(above.seconds_after(below)) > 0.001) {
        const UtcSeconds middle = below.plus_seconds(above.seconds_after(below) / 2.0);
        (clearance.at(middle) < 0.0 ? below : above) = middle;
    }
    return below.plus_seconds(above.seconds_after(below) / 2.0);
}

/// The last crossing of that sense in the window.
std::optional<UtcSeconds> last_crossing(const SunTrack& track, Angle threshold, Crossing sense,
                                        UtcSeconds from, UtcSeconds to) {
    const Clearance clearance(track, threshold);
    const std::vector<Sample> all = samples(clearance, from, to);
    for (std::size_t i = all.size() - 1; i > 0; --i) {
        const Sample& a = all[i - 1];
        const Sample& b = all[i];
        if (sense == Crossing::up && a.height < 0.0 && b.height >= 0.0) {
            return crossing_between(clearance, a.instant, b.instant);
        }
        if (sense == Crossing::down && a.height >= 0.0 && b.height < 0.0) {
            return crossing_between(clearance, b.instant, a.instant);
        }
    }
    return std::nullopt;
}

/// The meridian passage nearest `guess`, which lies within half a day of it.
UtcSeconds meridian_passage(const SunTrack& track, UtcSeconds guess) {
    for (int i = 0; i < 4; ++i) {
        guess = guess.plus_seconds(-track.hour_angle(guess).in_radians() * half_day_s /
                                   std::numbers::pi);
    }
    return guess;
}

UtcSeconds local_mean_noon(Date date, const Place& place) {
    return UtcSeconds::since_1970(days_since_1970(date) * 86400.0 + half_day_s -
                                  place.longitude.in_degrees() * 240.0);
}

void find_crossings(SunDay& day, const SunTrack& track, UtcSeconds from, UtcSeconds to) {
    const UtcSeconds noon = day.solar_noon;
    constexpr Angle civil = Angle::degrees(-6.0);
    day.sunrise = last_crossing(track, rise_altitude(), Crossing::up, from, noon);
    day.sunset = last_crossing(track, rise_altitude(), Crossing::down, noon, to);
    day.civil_dawn = last_crossing(track, civil, Crossing::up, from, noon);
    day.civil_dusk = last_crossing(track, civil, Crossing::down, noon, to);
    // Near a pole the season moves the sun more than the day does: its only rise may come after
    // noon, its only set before.
    if (!day.sunrise && track.altitude_true(from) < rise_altitude()) {
        day.sunrise = last_crossing(track, rise_altitude(), Crossing::up, noon, to);
    }
    if (!day.sunset && track.altitude_true(to) < rise_altitude()) {
        day.sunset = last_crossing(track, rise_altitude(), Crossing::down, from, noon);
    }
}

DayState state_of(const SunDay& day) {
    if (day.sunrise && day.sunset) return DayState::normal;
    if (day.sunrise) return DayState::rise_only;
    if (day.sunset) return DayState::set_only;
    return day.noon_altitude < rise_altitude() ? DayState::polar_night : DayState::polar_day;
}

}  // namespace

SunDay sun_day(Date date, const Place& place) {
    const UtcSeconds mean_noon = local_mean_noon(date, place);
    const SunTrack track(place, mean_noon.plus_seconds(-half_day_s - 3600.0),
                         mean_noon.plus_seconds(half_day_s + 3600.0));
    SunDay day;
    day.solar_noon = meridian_passage(track, mean_noon);
    day.noon_altitude = track.altitude_true(day.solar_noon);
    const UtcSeconds from = day.solar_noon.plus_seconds(-half_day_s);
    const UtcSeconds to = day.solar_noon.plus_seconds(half_day_s);
    find_crossings(day, track, from, to);
    day.state = state_of(day);
    const bool dark = day.state == DayState::polar_night;
    day.up_from = dark ? day.solar_noon : day.sunrise.value_or(from);
    day.up_to = dark ? day.solar_noon : day.sunset.value_or(to);
    return day;
}

SunDay sun_day(Date civil_date, const Place& place, const TimeZone& zone) {
    SunDay nearest = sun_day(civil_date, place);
    for (const int shift : {0, -1, 1}) {
        const SunDay day = shift == 0 ? nearest : sun_day(add_days(civil_date, shift), place);
        if (zone.clock(day.solar_noon).date == civil_date) return day;
    }
    return nearest;
}

UtcSeconds solar_clock(const SunDay& day, double solar_hours) {
    return day.solar_noon.plus_seconds((solar_hours - 12.0) * 3600.0);
}

}  // namespace sunfleck::sun
