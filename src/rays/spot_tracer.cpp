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

void SpotTracer::mix(const LightSpot& spot, const SpotItems& items,
                     std::vector<std::uint32_t>& first, std::vector<LightSpan>& spans) {
    mixer_.begin(spot.point);
    first.assign(1, 0);
    spans.clear();
    for (std::size_t day = 0; day < scene_.frames->day_count; ++day) {
        sweep_.add_spans(day, scene_.sky->day(day), items.shades.day(day), items.veils.day(day),
                         mixer_, spans);
        first.push_back(static_cast<std::uint32_t>(spans.size()));
    }
}

void SpotTracer::trace(const LightSpot& spot, std::vector<std::uint32_t>& first,
                       std::vector<LightSpan>& spans) {
    items_.clear();
    find_half_space(spot, items_);
    find(spot, 0, scene_.pieces.size(), items_);
    items_.sort(scene_.frames->day_count);
    mix(spot, items_, first, spans);
}

}  // namespace sunfleck::rays
