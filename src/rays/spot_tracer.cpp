#include "rays/spot_tracer.h"

#include "rays/ball_samples.h"
#include "rays/crown_view.h"
#include "rays/sample_walk.h"
#include "sunfleck/geometry/passage.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunfleck::rays {
namespace {

// Gauss-Legendre's eight points on [-1, 1]; Abramowitz & Stegun, table 25.4.
constexpr std::array<double, 4> gauss_places{0.1834346424956498, 0.5255324099163290,
                                             0.7966664774136267, 0.9602898564975363};
constexpr std::array<double, 4> gauss_weights{0.3626837833783620, 0.3137066458778873,
                                              0.2223810344533745, 0.1012285362903763};

}  // namespace

SpotTracer::SpotTracer(const TraceScene& scene)
    : scene_(scene), viewer_(*scene.frames, *scene.kernels, scene.sky->sun_stays_above()) {
    crossings_.resize(scene.frames->tan_declination.size());
    int longest = 0;
    for (const SunTableDay& day : scene.sun->days()) {
        longest = std::max(longest, int{day.sample_count});
    }
    crowns_.resize(scene.pieces.size());
    enters_.resize(static_cast<std::size_t>(longest) + 32);
    leaves_.resize(enters_.size());
}

void SpotTracer::trace(const LightSpot& spot, std::vector<std::uint32_t>& first,
                       std::vector<LightSpan>& spans) {
    spot_ = spot.point;
    items_.shades.clear();
    items_.veils.clear();
    if (spot.outward) {
        TracedPiece wall;
        wall.is_opaque = true;
        groups_.clear();
        for (std::size_t g = 0; g < scene_.frames->lowest_sine.size(); ++g) {
            groups_.push_back(static_cast<std::uint16_t>(g));
        }
        add_crossings(viewer_.half_space(*spot.outward), wall, 0);
    }
    for (std::size_t i = 0; i < scene_.pieces.size(); ++i) {
        add_piece(scene_.pieces[i], static_cast<std::uint16_t>(i));
    }
    const std::size_t day_count = scene_.sun->days().size();
    items_.shades.sort(day_count);
    items_.veils.sort(day_count);
    first.assign(1, 0);
    spans.clear();
    for (std::size_t day = 0; day < day_count; ++day) {
        sweep_.add_spans(day, scene_.sky->day(day), items_.shades.day(day), items_.veils.day(day),
                         *this, spans);
        first.push_back(static_cast<std::uint32_t>(spans.size()));
    }
}

void SpotTracer::add_piece(const TracedPiece& piece, std::uint16_t index) {
    groups_.clear();
    add_groups_before(piece.ball, spot_, *scene_.frames, groups_);
    if (groups_.empty()) return;
    switch (piece.kind) {
        case TraceKind::cone:
            add_cone(piece, index);
            return;
        case TraceKind::crown:
            add_crown(piece, index);
            return;
        case TraceKind::ray_by_ray:
            add_ray_by_ray(piece, index);
            return;
    }
}

void SpotTracer::add_cone(const TracedPiece& piece, std::uint16_t index) {
    switch (viewer_.see(piece.cone, spot_)) {
        case ConeKind::nothing:
            return;
        case ConeKind::cone:
            add_crossings(viewer_.planes(), piece, index);
            return;
        case ConeKind::all_round:
            add_all_round(piece, index);
            return;
        case ConeKind::doubtful:
            add_ray_by_ray(piece, index);
            return;
    }
}

void SpotTracer::add_span(const TracedPiece& piece, std::uint16_t index, std::size_t day, int from,
                          int to, float transmittance) {
    if (from >= to) return;
    const TickSpan span{static_cast<std::uint16_t>(from), static_cast<std::uint16_t>(to)};
    const auto of_day = static_cast<std::uint16_t>(day);
    if (piece.is_opaque || !(transmittance < 0.0F || transmittance > 0.0F)) {
        items_.shades.add({.span = span, .day = of_day});
    } else {
        items_.veils.add(
            {.span = span, .day = of_day, .piece = index, .transmittance = transmittance});
    }
}

void SpotTracer::add_crossings(const ConePlanes& cone, const TracedPiece& piece,
                               std::uint16_t index) {
    scene_.kernels->cone.cross_cone(cone, *scene_.frames, groups_, crossings_);
    take_crossings(piece, index, [&](std::size_t day, int from, int to) {
        scene_.kernels->cone.follow_cone(cone, directions_of(day), from, to, enters_.data(),
                                         leaves_.data());
    });
}

void SpotTracer::add_crown(const TracedPiece& piece, std::uint16_t index) {
    const auto& body = std::get<geometry::Crown>(scene_.garden->pieces[piece.piece].body);
    CrownView& crown = crowns_[index];
    if (scene_.sky->sun_stays_above() && body.base_centre.z + body.height_m <= spot_.z) return;
    crown = crown_view(body, piece.ball, spot_, *scene_.frames);
    const auto follow = [&](std::size_t day, int from, int to) {
        scene_.kernels->crown.follow_crown(crown, directions_of(day), from, to, enters_.data(),
                                           leaves_.data());
    };
    if (crown.shape == CrownShape::ellipsoid) {
        if (crown.is_within) {
            add_all_round(piece, index);
            return;
        }
        scene_.kernels->crown.cross_crown(crown, *scene_.frames, groups_, crossings_);
        take_crossings(piece, index, follow);
        return;
    }
    for (const std::uint16_t group : groups_) {
        const std::size_t first = std::size_t{group} * days_at_once;
        const std::size_t end = std::min(first + days_at_once, scene_.frames->day_count);
        for (std::size_t day = first; day < end; ++day) {
            if (!piece.dims_on(day)) continue;
            for (const SampleRange& range : samples_before(piece.ball, spot_, *scene_.sun, day)) {
                if (range.from >= range.to) continue;
                follow(day, range.from, range.to);
                add_followed(day, range.from, range.to, piece, index);
            }
        }
    }
}

template <typename Follow>
void SpotTracer::take_crossings(const TracedPiece& piece, std::uint16_t index,
                                const Follow& follow) {
    const auto add_part = [&](std::size_t day, int from, int to) {
        if (from >= to) return;
        follow(day, from, to);
        add_followed(day, from, to, piece, index);
    };
    for (const std::uint16_t group : groups_) {
        if (crossings_.any[group] == 0) continue;
        const std::size_t first = std::size_t{group} * days_at_once;
        const std::size_t end = std::min(first + days_at_once, scene_.frames->day_count);
        for (std::size_t day = first; day < end; ++day) {
            const auto kind = static_cast<CrossingKind>(crossings_.kind[day]);
            if (kind == CrossingKind::none || !piece.dims_on(day)) continue;
            if (kind == CrossingKind::unclear) {
                add_part(day, crossings_.from[day], crossings_.to[day]);
                continue;
            }
            const TickSpan touch{
                static_cast<std::uint16_t>(crossings_.touch_from[day] * ticks_per_minute),
                static_cast<std::uint16_t>(crossings_.touch_to[day] * ticks_per_minute)};
            add_outside(touch, piece, index, day, crossings_.from[day], crossings_.to[day]);
            add_outside(touch, piece, index, day, crossings_.second_from[day],
                        crossings_.second_to[day]);
            add_part(day, crossings_.touch_from[day], crossings_.touch_to[day]);
        }
    }
}

const float* SpotTracer::directions_of(std::size_t day) const {
    return &scene_.frames
                ->directions[4 * static_cast<std::size_t>(scene_.frames->first_sample[day])];
}

// A span but for what lies in `touch`.
void SpotTracer::add_outside(TickSpan touch, const TracedPiece& piece, std::uint16_t index,
                             std::size_t day, int from, int to) {
    if (touch.from >= touch.to) {
        add_span(piece, index, day, from, to, piece.transmittance);
        return;
    }
    add_span(piece, index, day, from, std::min(to, int{touch.from}), piece.transmittance);
    add_span(piece, index, day, std::max(from, int{touch.to}), to, piece.transmittance);
}

// What was followed from sample to sample, stretches that join made one.
void SpotTracer::add_followed(std::size_t day, int from, int to, const TracedPiece& piece,
                              std::uint16_t index) {
    int start = 0;
    int end = -1;  // of the stretch at hand; none when before its start
    for (int step = from; step < to; ++step) {
        const auto at = static_cast<std::size_t>(step - from);
        if (enters_[at] >= leaves_[at]) continue;
        const int enter = step * ticks_per_minute + enters_[at];
        if (enter != end) {
            if (start < end) add_span(piece, index, day, start, end, piece.transmittance);
            start = enter;
        }
        end = step * ticks_per_minute + leaves_[at];
    }
    if (start < end) add_span(piece, index, day, start, end, piece.transmittance);
}

void SpotTracer::add_all_round(const TracedPiece& piece, std::uint16_t index) {
    for (std::size_t day = 0; day < scene_.sun->days().size(); ++day) {
        if (!piece.dims_on(day)) continue;
        const int last = scene_.sun->days()[day].sample_count - 1;
        add_span(piece, index, day, 0, last * ticks_per_minute + 1, piece.transmittance);
    }
}

void SpotTracer::add_ray_by_ray(const TracedPiece& piece, std::uint16_t index) {
    for (const std::uint16_t group : groups_) {
        const std::size_t first = std::size_t{group} * days_at_once;
        const std::size_t end = std::min(first + days_at_once, scene_.sun->days().size());
        for (std::size_t day = first; day < end; ++day) {
            if (!piece.dims_on(day)) continue;
            for (const SampleRange& range : samples_before(piece.ball, spot_, *scene_.sun, day)) {
                add_ray_by_ray(piece, index, day, range.from, range.to);
            }
        }
    }
}

// Where the transmittance varies, only whether the piece is met makes a span.
void SpotTracer::add_ray_by_ray(const TracedPiece& piece, std::uint16_t index, std::size_t day,
                                int from, int to) {
    const geometry::Piece& body = scene_.garden->pieces[piece.piece];
    const geometry::PieceOptics optics = piece.optics_on(day);
    const bool varies = std::holds_alternative<geometry::LathBody>(body.body);
    const auto answer = [&](Vec3 direction) {
        const geometry::Passage passage = geometry::pass(body, optics, spot_, direction);
        if (!passage.is_met) return 1.0;
        return varies && passage.transmittance > 0.0 ? -1.0 : passage.transmittance;
    };
    walk_samples(*scene_.sun, scene_.sun->days()[day], from, to, answer,
                 [&](int first, int end, double transmittance) {
                     if (transmittance >= 1.0) return;
                     add_span(piece, index, day, first, end, static_cast<float>(transmittance));
                 });
}

// Crowns alone go to the kernel; gives false when something else varies.
bool SpotTracer::take_layers(std::size_t day, std::span<const VeilItem* const> veils,
                             float& constant) {
    layers_.clear();
    for (const VeilItem* veil : veils) {
        const TracedPiece& piece = scene_.pieces[veil->piece];
        if (!veil->is_varying()) {
            constant *= veil->transmittance;
        } else if (piece.kind == TraceKind::crown) {
            layers_.push_back({.crown = &crowns_[veil->piece],
                               .k_per_m = static_cast<float>(piece.optics_on(day).k_per_m)});
        } else {
            return false;
        }
    }
    return true;
}

double SpotTracer::mean_transmittance(std::size_t day, TickSpan span,
                                      std::span<const VeilItem* const> veils) {
    float constant = 1.0F;
    if (!take_layers(day, veils, constant)) return mean_of_rays(day, span, veils);
    const float light = scene_.kernels->crown.mean_light(
        layers_, directions_of(day), static_cast<float>(span.from), static_cast<float>(span.to));
    return static_cast<double>(constant * light);
}

// With t = middle + half sin(u) the square roots at which crowns begin and end become smooth.
double SpotTracer::mean_of_rays(std::size_t day, TickSpan span,
                                std::span<const VeilItem* const> veils) const {
    const SunTableDay& of_day = scene_.sun->days()[day];
    const double middle = 0.5 * (span.from + span.to);
    const double half = 0.5 * (span.to - span.from);
    const auto light_at = [&](double tick) {
        const int sample =
            std::min(static_cast<int>(tick) / ticks_per_minute, of_day.sample_count - 2);
        const double share = tick / ticks_per_minute - sample;
        const Vec3 from = scene_.sun->direction(of_day, sample);
        const Vec3 direction = from + share * (scene_.sun->direction(of_day, sample + 1) - from);
        double light = 1.0;
        for (const VeilItem* veil : veils) {
            const TracedPiece& piece = scene_.pieces[veil->piece];
            light *= veil->is_varying() ? geometry::pass(scene_.garden->pieces[piece.piece],
                                                         piece.optics_on(day), spot_, direction)
                                              .transmittance
                                        : static_cast<double>(veil->transmittance);
        }
        return light;
    };
    double sum = 0.0;
    for (std::size_t i = 0; i < gauss_places.size(); ++i) {
        const double u = 0.5 * std::numbers::pi * gauss_places[i];
        const double weight = 0.25 * std::numbers::pi * std::cos(u) * gauss_weights[i];
        sum += weight *
               (light_at(middle - half * std::sin(u)) + light_at(middle + half * std::sin(u)));
    }
    return sum;
}

}  // namespace sunfleck::rays
