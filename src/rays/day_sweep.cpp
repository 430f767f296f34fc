#include "rays/day_sweep.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::rays {
float below_one(float transmittance) {
    return std::min(transmittance, std::nextafter(1.0F, 0.0F));
}

void DaySweep::add_spans(std::size_t day, std::span<const TickSpan> windows,
                         std::span<const ShadeItem> shades, std::span<const VeilItem> veils,
                         VeilLight& light, std::vector<LightSpan>& spans) {
    day_start_ = spans.size();
    for (const TickSpan& window : windows) {
        std::uint16_t lit_from = window.from;
        for (const ShadeItem& shade : shades) {
            if (shade.span.from >= window.to) break;
            if (shade.span.from > lit_from) {
                add_gap(day, {lit_from, shade.span.from}, veils, light, spans);
            }
            lit_from = std::max(lit_from, shade.span.to);
        }
        if (lit_from < window.to) add_gap(day, {lit_from, window.to}, veils, light, spans);
    }
}

void DaySweep::add_gap(std::size_t day, TickSpan gap, std::span<const VeilItem> veils,
                       VeilLight& light, std::vector<LightSpan>& spans) {
    in_gap_.clear();
    cuts_.assign({gap.from, gap.to});
    for (const VeilItem& veil : veils) {
        if (veil.span.from >= gap.to) break;
        if (veil.span.to <= gap.from) continue;
        in_gap_.push_back(&veil);
        if (veil.span.from > gap.from) cuts_.push_back(veil.span.from);
        if (veil.span.to < gap.to) cuts_.push_back(veil.span.to);
    }
    if (in_gap_.empty()) {
        spans.push_back({.from_tick = gap.from, .to_tick = gap.to, .transmittance = 1.0F});
        return;
    }
    std::sort(cuts_.begin(), cuts_.end());
    for (std::size_t i = 0; i + 1 < cuts_.size(); ++i) {
        if (cuts_[i] < cuts_[i + 1]) add_piece(day, {cuts_[i], cuts_[i + 1]}, light, spans);
    }
}

void DaySweep::add_piece(std::size_t day, TickSpan piece, VeilLight& light,
                         std::vector<LightSpan>& spans) {
    active_.clear();
    float transmittance = 1.0F;
    bool varies = false;
    for (const VeilItem* veil : in_gap_) {
        if (veil->span.from > piece.from || veil->span.to < piece.to) continue;
        active_.push_back(veil);
        varies = varies || veil->is_varying();
        if (!veil->is_varying()) transmittance *= veil->transmittance;
    }
    if (varies) {
        add_varying(day, piece, light, spans);
        return;
    }
    if (!active_.empty()) transmittance = below_one(transmittance);
    if (!(transmittance > 0.0F)) return;
    const bool goes_on = spans.size() > day_start_ && active_.empty() &&
                         spans.back().to_tick == piece.from && spans.back().is_full();
    if (goes_on) {
        spans.back().to_tick = piece.to;
    } else {
        spans.push_back(
            {.from_tick = piece.from, .to_tick = piece.to, .transmittance = transmittance});
    }
}

void DaySweep::add_varying(std::size_t day, TickSpan piece, VeilLight& light,
                           std::vector<LightSpan>& spans) {
    const int ticks = piece.to - piece.from;
    const int most = longest_varying_min_ > 0 ? longest_varying_min_ * ticks_per_minute : ticks;
    const int parts = (ticks + most - 1) / most;
    for (int i = 0; i < parts; ++i) {
        const TickSpan part{static_cast<std::uint16_t>(piece.from + ticks * i / parts),
                            static_cast<std::uint16_t>(piece.from + ticks * (i + 1) / parts)};
        light.add_span(day, part, active_, spans);
    }
}

}  // namespace sunfleck::rays
