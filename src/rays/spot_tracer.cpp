#include "rays/spot_tracer.h"

namespace sunfleck::rays {

SpotTracer::SpotTracer(const TraceScene& scene)
    : scene_(scene), finder_(scene), mixer_(scene), sweep_(scene.longest_varying_min) {}

void SpotTracer::find(const LightSpot& spot, std::size_t first, std::size_t end, SpotItems& items) {
    for (std::size_t i = first; i < end; ++i) {
        finder_.add(static_cast<std::uint16_t>(i), spot.point, items);
    }
}

void SpotTracer::find_half_space(const LightSpot& spot, SpotItems& items) {
    if (spot.outward) finder_.add_half_space(*spot.outward, items);
}

void SpotTracer::mix(const LightSpot& spot, SpotItems& items, DaySpans& days,
                     const KnownSpans* known) {
    items.sort(finder_.first_day(), finder_.end_day());
    mixer_.begin(spot.point, known);
    for (std::size_t day = finder_.first_day(); day < finder_.end_day(); ++day) {
        sweep_.add_spans(day, scene_.sky->day(day), items.shades.day(day), items.veils.day(day),
                         mixer_, days.spans);
        days.first.push_back(static_cast<std::uint32_t>(days.spans.size()));
    }
    mixer_.finish(days.spans);
}

void SpotTracer::trace(const LightSpot& spot, DaySpans& days) {
    items_.clear();
    find_half_space(spot, items_);
    find(spot, 0, scene_.pieces.size(), items_);
    mix(spot, items_, days);
}

}  // namespace sunfleck::rays
