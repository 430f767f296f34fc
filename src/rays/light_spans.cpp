#include "sunfleck/rays/light_spans.h"

#include "sunfleck/base/require.h"

#include <algorithm>

namespace sunfleck::rays {

LightSpans::LightSpans(std::size_t spot_count, std::size_t day_count)
    : day_count_(day_count), spots_(spot_count) {
    for (Spot& spot : spots_) spot.first.assign(day_count + 1, 0);
}

const LightSpan* LightSpans::at_sample(std::size_t spot, std::size_t day, int sample) const {
    const int tick = sample * ticks_per_minute;
    const auto spans = this->day(spot, day);
    const auto after = std::partition_point(
        spans.begin(), spans.end(), [&](const LightSpan& span) { return span.to_tick <= tick; });
    return after != spans.end() && after->from_tick <= tick ? &*after : nullptr;
}

std::size_t LightSpans::byte_count() const {
    std::size_t bytes = spots_.capacity() * sizeof(Spot);
    for (const Spot& spot : spots_) {
        bytes += spot.first.capacity() * sizeof(std::uint32_t) +
                 spot.spans.capacity() * sizeof(LightSpan);
    }
    return bytes;
}

void LightSpans::set_spot(std::size_t spot, std::span<const std::uint32_t> first,
                          std::span<const LightSpan> spans) {
    SUNFLECK_REQUIRE(first.size() == day_count_ + 1 && first.back() == spans.size(),
                     "one index per day and one for the end");
    spots_[spot].first.assign(first.begin(), first.end());
    spots_[spot].spans.assign(spans.begin(), spans.end());
}

}  // namespace sunfleck::rays
