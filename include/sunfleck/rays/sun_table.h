#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/sun/place.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace sunfleck::rays {

/// Times within a day are counted in ticks of 1/32 minute (1.9 s), so that they fit 16 bits.
inline constexpr int ticks_per_minute = 32;

/// One day of a sun table: one sample each whole minute from `start` on, the last at or after
/// sunset. The sun is up in ticks [up_from_tick, up_to_tick); a sample is asked when its own tick
/// lies in there. In polar night the two are equal and no sample is asked.
struct SunTableDay {
    Date date;
    UtcSeconds start;    ///< instant of sample 0, a whole minute not after sunrise
    UtcSeconds up_from;  ///< as sun::SunDay has them
    UtcSeconds up_to;
    std::uint32_t first_sample = 0;  ///< index into the table's samples
    std::uint16_t sample_count = 0;
    std::uint16_t up_from_tick = 0;
    std::uint16_t up_to_tick = 0;
    Angle declination;       ///< of the middle of the day's samples, without refraction
    Angle start_hour_angle;  ///< of sample 0, west positive, not wrapped at 180 degrees

    /// Samples with the sun up, [first_asked(), end_asked()).
    [[nodiscard]] int first_asked() const {
        return (up_from_tick + ticks_per_minute - 1) / ticks_per_minute;
    }
    [[nodiscard]] int end_asked() const {
        return (up_to_tick + ticks_per_minute - 1) / ticks_per_minute;
    }
    [[nodiscard]] UtcSeconds instant_of(int tick) const {
        return start.plus_seconds(tick * (60.0 / ticks_per_minute));
    }
    /// The nearest tick, held within the time the sun is up.
    [[nodiscard]] int tick_of(UtcSeconds instant) const;
};

struct SunTableOptions {
    bool is_refracted = true;
    /// Turns the sun's path towards the celestial north pole, to trace other parts of the disk
    /// than its middle. The time the sun is up stays that of the middle.
    Angle declination_shift;
    int thread_count = 0;  ///< 0: all cores
};

/// The sun's place at every minute of many days, seen from one place: made once in double
/// precision, then read by everything that traces many spots. Directions are held as floats
/// (6e-8 of a radian). A year at 55 degrees takes 3.3 MB and 60 ms of CPU.
class SunTable {
  public:
    /// `dates` in any order, each at most once.
    SunTable(std::span<const Date> dates, const sun::Place& place,
             const SunTableOptions& options = {});

    [[nodiscard]] const sun::Place& place() const { return place_; }
    [[nodiscard]] std::span<const SunTableDay> days() const { return days_; }
    /// Samples with the sun up, of all days: what tracing one spot answers.
    [[nodiscard]] std::size_t asked_count() const;
    /// Unit vectors towards the sun as x, y, z one after another, three floats for each sample.
    [[nodiscard]] std::span<const float> directions() const { return directions_; }
    /// Towards the sun at a sample of a day.
    [[nodiscard]] Vec3 direction(const SunTableDay& day, int sample) const {
        const float* at = &directions_[3 * (day.first_sample + static_cast<std::size_t>(sample))];
        return {static_cast<double>(at[0]), static_cast<double>(at[1]), static_cast<double>(at[2])};
    }

  private:
    sun::Place place_;
    std::vector<SunTableDay> days_;
    std::vector<float> directions_;
};

/// Every date from `from` to `to`, both included.
[[nodiscard]] std::vector<Date> dates_from_to(Date from, Date to);

}  // namespace sunfleck::rays
