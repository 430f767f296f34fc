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
constexpr double longest_panel_ticks = 60.0 * ticks_per_minute;

}  // namespace

VeilMixer::VeilMixer(const TraceScene& scene) : scene_(scene) {
    crowns_.resize(scene.pieces.size());
    crown_made_for_.resize(scene.pieces.size());
}

void VeilMixer::begin(Vec3 spot) {
    spot_ = spot;
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

// Crowns alone go to the kernel; gives false when something else varies.
bool VeilMixer::take_layers(std::size_t day, std::span<const VeilItem* const> veils,
                            float& constant) {
    layers_.clear();
    for (const VeilItem* veil : veils) {
        const TracedPiece& piece = scene_.pieces[veil->piece];
        if (!veil->is_varying()) {
            constant *= veil->transmittance;
        } else if (piece.kind == TraceKind::crown) {
            layers_.push_back({.crown = &crown(veil->piece),
                               .k_per_m = static_cast<float>(piece.optics_on(day).k_per_m)});
        } else {
            return false;
        }
    }
    return true;
}

double VeilMixer::mean_transmittance(std::size_t day, TickSpan span,
                                     std::span<const VeilItem* const> veils) {
    float constant = 1.0F;
    if (!take_layers(day, veils, constant)) return mean_of_rays(day, span, veils);
    const float light = scene_.kernels->crown.mean_light(layers_, scene_.directions_of(day),
                                                         static_cast<float>(span.from),
                                                         static_cast<float>(span.to));
    return static_cast<double>(constant * light);
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
    const double panels = std::ceil((span.to - span.from) / longest_panel_ticks);
    const double half = 0.5 * (span.to - span.from) / panels;
    double sum = 0.0;
    for (double panel = 0.0; panel < panels; panel += 1.0) {
        const double middle = span.from + (2.0 * panel + 1.0) * half;
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
