#include "sunfleck/sun/sun_day.h"

#include "sunfleck/sun/sun_track.h"

#include <cmath>
#include <numbers>
#include <vector>

namespace sunfleck::sun {
namespace {

constexpr double half_day_s = 43200.0;
constexpr double sample_step_s = 1200.0;

enum class Crossing { up, down };

struct Sample {
    UtcSeconds instant;
    double altitude_rad = 0.0;
};

/// The sun's altitude over a day: exact at any instant, and sampled once for all the questions.
///
/// Noon and both midnights are among the samples. The curve turns within half a minute of them
/// at 70 degrees of latitude (its declination's drift over its own curvature), 0.00003 degrees
/// higher or lower, so that samples miss no rise or set that lasts; nearer to a pole it turns
/// later, but so slowly that between samples it stays within 0.001 degrees.
class AltitudeCurve {
  public:
    AltitudeCurve(const SunTrack& track, UtcSeconds from, UtcSeconds noon, UtcSeconds to)
        : track_(track) {
        append_samples(from, noon);
        noon_index_ = samples_.size() - 1;
        append_samples(noon, to);
    }

    [[nodiscard]] Sample at(UtcSeconds instant) const {
        return {instant, track_.altitude_true(instant).in_radians()};
    }
    [[nodiscard]] const Sample& start() const { return samples_.front(); }
    [[nodiscard]] const Sample& noon() const { return samples_[noon_index_]; }
    [[nodiscard]] const Sample& end() const { return samples_.back(); }

    /// The last crossing of that sense before noon, or after it.
    [[nodiscard]] std::optional<UtcSeconds> before_noon(Angle threshold, Crossing sense) const {
        return last_crossing(0, noon_index_, threshold.in_radians(), sense);
    }
    [[nodiscard]] std::optional<UtcSeconds> after_noon(Angle threshold, Crossing sense) const {
        return last_crossing(noon_index_, samples_.size() - 1, threshold.in_radians(), sense);
    }

  private:
    /// Every twenty minutes, both ends; an end that is there already is not repeated.
    void append_samples(UtcSeconds from, UtcSeconds to) {
        const int steps = static_cast<int>(std::ceil(to.seconds_after(from) / sample_step_s));
        for (int i = samples_.empty() ? 0 : 1; i <= steps; ++i) {
            samples_.push_back(at(i == steps ? to : from.plus_seconds(i * sample_step_s)));
        }
    }

    [[nodiscard]] std::optional<UtcSeconds> last_crossing(std::size_t first, std::size_t last,
                                                          double threshold, Crossing sense) const {
        for (std::size_t i = last; i > first; --i) {
            const Sample& a = samples_[i - 1];
            const Sample& b = samples_[i];
            if (is_crossing(a, b, threshold, sense)) return root(a, b, threshold);
        }
        return std::nullopt;
    }

    static bool is_crossing(const Sample& a, const Sample& b, double threshold, Crossing sense) {
        const bool from_below = a.altitude_rad < threshold;
        const bool to_below = b.altitude_rad < threshold;
        return from_below != to_below && from_below == (sense == Crossing::up);
    }

    /// The crossing between two samples on either side, by bisection to a thousandth of a second.
    [[nodiscard]] UtcSeconds root(Sample a, Sample b, double threshold) const {
        const bool from_below = a.altitude_rad < threshold;
        while (b.instant.seconds_after(a.instant) > 0.001) {
            const Sample middle =
                at(a.instant.plus_seconds(b.instant.seconds_after(a.instant) / 2));
            ((middle.altitude_rad < threshold) == from_below ? a : b) = middle;
        }
        return a.instant.plus_seconds(b.instant.seconds_after(a.instant) / 2);
    }

    const SunTrack& track_;
    std::vector<Sample> samples_;
    std::size_t noon_index_ = 0;
};

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

void find_crossings(SunDay& day, const AltitudeCurve& curve) {
    constexpr Angle civil = Angle::degrees(-6.0);
    day.sunrise = curve.before_noon(rise_altitude(), Crossing::up);
    day.sunset = curve.after_noon(rise_altitude(), Crossing::down);
    day.civil_dawn = curve.before_noon(civil, Crossing::up);
    day.civil_dusk = curve.after_noon(civil, Crossing::down);
    // Near a pole the season moves the sun more than the day does: its only rise may come after
    // noon, its only set before.
    const double threshold = rise_altitude().in_radians();
    if (!day.sunrise && curve.start().altitude_rad < threshold) {
        day.sunrise = curve.after_noon(rise_altitude(), Crossing::up);
    }
    if (!day.sunset && curve.end().altitude_rad < threshold) {
        day.sunset = curve.before_noon(rise_altitude(), Crossing::down);
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
    const UtcSeconds from = day.solar_noon.plus_seconds(-half_day_s);
    const UtcSeconds to = day.solar_noon.plus_seconds(half_day_s);
    const AltitudeCurve curve(track, from, day.solar_noon, to);
    day.noon_altitude = Angle::radians(curve.noon().altitude_rad);
    find_crossings(day, curve);
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
