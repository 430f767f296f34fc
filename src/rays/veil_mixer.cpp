#include "rays/veil_mixer.h"

#include "rays/crown_view.h"
#include "rays/lath_blend.h"
#include "sunfleck/geometry/passage.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace sunfleck::rays {
namespace {

// Gauss-Legendre's eight points on [-1, 1]; Abramowitz & Stegun, table 25.4.
constexpr std::array<double, 4> gauss_places{0.1834346424956498, 0.5255324099163290,
                                             0.7966664774136267, 0.9602898564975363};
constexpr std::array<double, 4> gauss_weights{0.3626837833783620, 0.3137066458778873,
                                              0.2223810344533745, 0.1012285362903763};
constexpr int longest_mixed_panel = 60 * ticks_per_minute;
constexpr int longest_panel = 120 * ticks_per_minute;  // behind crowns, which vary less
constexpr std::size_t panels_in_a_turn = 64;

}  // namespace

const LightSpan* KnownSpans::find(std::size_t day, TickSpan span,
                                  std::span<const VeilItem* const> veils) const {
    for (const VeilItem* veil : veils) {
        if (veil->piece >= first_piece && veil->piece < end_piece) return nullptr;
    }
    for (const VeilItem& veil : old_veils) {
        if (veil.day == day && veil.span.from < span.to && veil.span.to > span.from) return nullptr;
    }
    for (const LightSpan& known : light->day(spot, day)) {
        if (known.from_tick > span.from) return nullptr;
        if (known.from_tick == span.from) return known.to_tick == span.to ? &known : nullptr;
    }
    return nullptr;
}

VeilMixer::VeilMixer(const TraceScene& scene) : scene_(scene) {
    crowns_.resize(scene.pieces.size());
    crown_made_for_.resize(scene.pieces.size());
}

void VeilMixer::begin(Vec3 spot, const KnownSpans* known) {
    spot_ = spot;
    known_ = known;
    ++spot_number_;
}

const CrownView& VeilMixer::crown(std::uint16_t index) {
    if (crown_made_for_[index] != spot_number_) {
        const TracedPiece& piece = scene_.pieces[index];
        crowns_[index] = crown_view(std::get<geometry::Crown>(scene_.body_of(piece).body), spot_);
        crown_made_for_[index] = spot_number_;
    }
    return crowns_[index];
}

bool VeilMixer::are_crowns(const TraceScene& scene, std::span<const VeilItem* const> veils) {
    return std::all_of(veils.begin(), veils.end(), [&](const VeilItem* veil) {
        return !veil->is_varying() || scene.pieces[veil->piece].kind == TraceKind::crown;
    });
}

void VeilMixer::add_span(std::size_t day, TickSpan span, std::span<const VeilItem* const> veils,
                         std::vector<LightSpan>& spans) {
    if (const LightSpan* known = known_ != nullptr ? known_->find(day, span, veils) : nullptr) {
        spans.push_back(*known);
        return;
    }
    if (!are_crowns(scene_, veils)) {
        const auto mean = static_cast<float>(mean_of_rays(day, span, veils));
        if (!(mean > 0.0F)) return;
        spans.push_back(
            {.from_tick = span.from, .to_tick = span.to, .transmittance = below_one(mean)});
        return;
    }
    if (panels_.size() >= panels_in_a_turn) finish(spans);
    float constant = 1.0F;
    for (const VeilItem* veil : veils) {
        if (!veil->is_varying()) constant *= veil->transmittance;
    }
    const int ticks = span.to - span.from;
    const int count = (ticks + longest_panel - 1) / longest_panel;
    const float width = static_cast<float>(ticks) / static_cast<float>(count);
    const Share share{.span = spans.size(), .weight = constant / static_cast<float>(count)};
    for (int i = 0; i < count; ++i) {
        const float from = static_cast<float>(span.from) + static_cast<float>(i) * width;
        add_panel(day, from, from + width, veils, share);
    }
    spans.push_back({.from_tick = span.from, .to_tick = span.to, .transmittance = 0.0F});
}

void VeilMixer::add_panel(std::size_t day, float from, float to,
                          std::span<const VeilItem* const> veils, const Share& share) {
    const auto number = static_cast<std::uint32_t>(panels_.size());
    for (const VeilItem* veil : veils) {
        if (!veil->is_varying()) continue;
        const double k_per_m = scene_.pieces[veil->piece].optics[day].k_per_m;
        layers_.push_back({.panel = number,
                           .k_per_m = static_cast<float>(k_per_m),
                           .crown = &crown(veil->piece)});
    }
    panels_.push_back({.directions = scene_.directions_of(day), .from_tick = from, .to_tick = to});
    shares_.push_back(share);
}

void VeilMixer::finish(std::vector<LightSpan>& spans) {
    light_.resize(panels_.size());
    scene_.kernels->crown.light_panels(panels_, layers_, room_, light_.data());
    for (std::size_t p = 0; p < panels_.size(); ++p) {
        float& transmittance = spans[shares_[p].span].transmittance;
        transmittance = below_one(transmittance + shares_[p].weight * light_[p]);
    }
    panels_.clear();
    layers_.clear();
    shares_.clear();
}

double VeilMixer::light_of_ray(std::size_t day, Vec3 direction,
                               std::span<const VeilItem* const> veils) const {
    double light = 1.0;
    for (const VeilItem* veil : veils) {
        const TracedPiece& piece = scene_.pieces[veil->piece];
        if (!veil->is_varying()) {
            light *= static_cast<double>(veil->transmittance);
        } else if (piece.kind == TraceKind::laths) {
            const LathLook look(std::get<geometry::LathBody>(scene_.body_of(piece).body), spot_);
            light *= lath_veil_light(look, veil->transmittance, direction);
        } else {
            light *= geometry::pass(scene_.body_of(piece), piece.optics_on(day), spot_, direction)
                         .transmittance;
        }
    }
    return light;
}

// With t = middle + half sin(u) the square roots at which crowns begin and end become smooth.
double VeilMixer::mean_of_rays(std::size_t day, TickSpan span,
                               std::span<const VeilItem* const> veils) const {
    const SunTableDay& of_day = scene_.sun->days()[day];
    const auto light_at = [&](double tick) {
        const int sample =
            std::min(static_cast<int>(tick) / ticks_per_minute, of_day.sample_count - 2);
        const double share = tick / ticks_per_minute - sample;
        const Vec3 from = scene_.sun->direction(of_day, sample);
        const Vec3 to = scene_.sun->direction(of_day, sample + 1);
        return light_of_ray(day, from + share * (to - from), veils);
    };
    const int ticks = span.to - span.from;
    const int panels = (ticks + longest_mixed_panel - 1) / longest_mixed_panel;
    const double half = 0.5 * ticks / panels;
    double sum = 0.0;
    for (int panel = 0; panel < panels; ++panel) {
        const double middle = span.from + (2 * panel + 1) * half;
        for (std::size_t i = 0; i < gauss_places.size(); ++i) {
            const double u = 0.5 * std::numbers::pi * gauss_places[i];
            const double weight = 0.25 * std::numbers::pi * std::cos(u) * gauss_weights[i];
            sum += weight *
                   (light_at(middle - half * std::sin(u)) + light_at(middle + half * std::sin(u)));
        }
    }
    return sum / panels;
}

}  // namespace sunfleck::rays
