#include "rays/lath_blend.h"

#include "rays/sample_walk.h"
#include "sunfleck/geometry/passage.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::rays {
namespace {

TickSpan common(TickSpan a, TickSpan b) {
    return {std::max(a.from, b.from), std::min(a.to, b.to)};
}

bool is_empty(TickSpan span) {
    return span.from >= span.to;
}

TickSpan hull_of(std::span<const ShadeItem> laths, std::span<const ShadeItem> panel) {
    TickSpan hull{0xffff, 0};
    for (const auto& items : {laths, panel}) {
        for (const ShadeItem& item : items) {
            hull.from = std::min(hull.from, item.span.from);
            hull.to = std::max(hull.to, item.span.to);
        }
    }
    return hull;
}

}  // namespace

LathLook::LathLook(const geometry::LathBody& laths, Vec3 spot)
    : laths_(&laths),
      from_corner_(spot - laths.corner),
      height_m_(dot(spot - laths.corner, laths.up)) {}

double LathLook::crossing_m(Vec3 direction) const {
    const double climb = dot(direction, laths_->up);
    if (!(std::abs(climb) > 0.0)) return 0.0;
    const double distance = -height_m_ / climb;
    return distance > 0.0 && std::isfinite(distance) ? distance : 0.0;
}

double LathLook::sharpness(Vec3 direction) const {
    const double distance = crossing_m(direction);
    if (!(distance > 0.0)) return 1.0;
    return geometry::lath_sharpness(laths_->pitch_m, distance);
}

double LathLook::mean(Vec3 direction) const {
    const double distance = crossing_m(direction);
    if (!(distance > 0.0)) return 1.0;
    const Vec3 place = from_corner_ + distance * direction;
    const double s = dot(place, laths_->along);
    const double c = dot(place, laths_->across);
    const double half_pitch = 0.5 * laths_->pitch_m;
    const bool is_within = s >= 0.0 && s <= laths_->length_m && c >= -half_pitch &&
                           c <= (laths_->count - 1) * laths_->pitch_m + half_pitch;
    if (!is_within) return 1.0;
    return geometry::mean_lath_transmittance(
        *laths_, dot(direction, laths_->across) / dot(direction, laths_->up));
}

bool LathLook::is_closed(Vec3 direction) const {
    const double climb = dot(direction, laths_->up);
    if (!(std::abs(climb) > 0.0)) return true;
    return !(geometry::mean_lath_transmittance(*laths_, dot(direction, laths_->across) / climb) >
             0.0);
}

double lath_veil_light(const LathLook& look, float veil, Vec3 direction) {
    const double sharp = look.sharpness(direction);
    const double blurred = (1.0 - sharp) * look.mean(direction);
    const double between = sharp + blurred;
    if (veil >= lath_gap_veil) return between;
    return between > 0.0 ? blurred / between : 0.0;
}

void LathBlend::find_zones(const TraceScene& scene, const LathLook& look, std::size_t day,
                           TickSpan hull) {
    zones_.clear();
    const SunTableDay& of_day = scene.sun->days()[day];
    const int from = hull.from / ticks_per_minute;
    const int to =
        std::min((hull.to + ticks_per_minute - 1) / ticks_per_minute, of_day.sample_count - 1);
    const auto zone_of = [&](Vec3 direction) {
        const double sharp = look.sharpness(direction);
        if (sharp >= 1.0) return Zone::sharp;
        const bool is_closed = look.is_closed(direction);
        if (sharp > 0.0) return is_closed ? Zone::blended_closed : Zone::blended;
        return is_closed ? Zone::closed : Zone::mean;
    };
    walk_samples(*scene.sun, of_day, from, to, zone_of, [&](int first, int end, Zone zone) {
        zones_.push_back(
            {.span = {static_cast<std::uint16_t>(first), static_cast<std::uint16_t>(end)},
             .zone = zone});
    });
}

void LathBlend::add(const TraceScene& scene, const LathLook& look, std::uint16_t piece,
                    std::size_t day, std::span<const ShadeItem> laths,
                    std::span<const ShadeItem> panel, SpotItems& items) {
    if (laths.empty() && panel.empty()) return;
    find_zones(scene, look, day, hull_of(laths, panel));
    const auto of_day = static_cast<std::uint16_t>(day);
    // Laths that overlap in view are one, or their veils would count twice.
    slats_.clear();
    for (const ShadeItem& lath : laths) {
        if (!slats_.empty() && lath.span.from <= slats_.back().to) {
            slats_.back().to = std::max(slats_.back().to, lath.span.to);
        } else {
            slats_.push_back(lath.span);
        }
    }
    const auto add_veil = [&](TickSpan span, float veil) {
        if (is_empty(span)) return;
        items.veils.add({.span = span, .day = of_day, .piece = piece, .transmittance = veil});
    };
    const auto add_shade = [&](TickSpan span) {
        if (!is_empty(span)) items.shades.add({.span = span, .day = of_day});
    };
    for (const ZoneSpan& zone : zones_) {
        for (const TickSpan& slat : slats_) {
            const TickSpan part = common(slat, zone.span);
            if (zone.zone == Zone::sharp) add_shade(part);
            if (zone.zone != Zone::blended && zone.zone != Zone::blended_closed) continue;
            add_veil(part, lath_slat_veil);
            if (zone.zone == Zone::blended) continue;
            // Beside the panel's outline a lath's end still lets its blurred share through.
            for (const ShadeItem& item : panel) add_shade(common(part, item.span));
        }
        if (zone.zone == Zone::sharp) continue;
        for (const ShadeItem& item : panel) {
            const TickSpan part = common(item.span, zone.span);
            if (zone.zone == Zone::closed) {
                add_shade(part);
            } else {
                add_veil(part, lath_gap_veil);
            }
        }
    }
}

}  // namespace sunfleck::rays
