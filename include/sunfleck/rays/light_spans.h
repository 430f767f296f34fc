#pragma once

#include "sunfleck/rays/sun_table.h"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace sunfleck::rays {

/// A stretch of a day in which the sun's middle reaches a spot. 8 bytes.
struct LightSpan {
    std::uint16_t from_tick = 0;  ///< after SunTableDay::start
    std::uint16_t to_tick = 0;    ///< the span holds ticks from <= tick < to
    float transmittance = 0.0F;   ///< mean over the span; exactly 1 in full sun, below 1 filtered

    [[nodiscard]] bool is_full() const { return transmittance >= 1.0F; }
    bool operator==(const LightSpan&) const = default;
};

/// The light of many spots on many days, kept as spans: what lies between them is shade. A new
/// span begins wherever something comes before the sun or leaves it; in a span behind a crown the
/// transmittance varies and its mean is kept. A garden's year takes about 15 kB a spot.
class LightSpans {
  public:
    /// Everything in shade.
    LightSpans(std::size_t spot_count, std::size_t day_count);

    [[nodiscard]] std::size_t spot_count() const { return spots_.size(); }
    [[nodiscard]] std::size_t day_count() const { return day_count_; }
    /// The lit spans of a day, ascending, not overlapping.
    [[nodiscard]] std::span<const LightSpan> day(std::size_t spot, std::size_t day) const {
        const Spot& own = spots_[spot];
        return std::span(own.spans).subspan(own.first[day], own.first[day + 1] - own.first[day]);
    }
    /// The span that holds a sample of the day; null in shade.
    [[nodiscard]] const LightSpan* at_sample(std::size_t spot, std::size_t day, int sample) const;
    /// Bytes held on the heap.
    [[nodiscard]] std::size_t byte_count() const;
    bool operator==(const LightSpans&) const = default;

    /// Replaces a spot's year: `spans` of all days in order, `first` the index of each day's first
    /// span and one more for the end.
    void set_spot(std::size_t spot, std::span<const std::uint32_t> first,
                  std::span<const LightSpan> spans);

  private:
    struct Spot {
        std::vector<std::uint32_t> first;
        std::vector<LightSpan> spans;
        bool operator==(const Spot&) const = default;
    };
    std::size_t day_count_;
    std::vector<Spot> spots_;
};

}  // namespace sunfleck::rays
