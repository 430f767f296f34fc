#include "rays/shadow_finder.h"

#include "rays/crown_view.h"
#include "rays/sample_walk.h"
#include "sunfleck/geometry/passage.h"

#include <algorithm>
#include <cstddef>

namespace sunfleck::rays {
namespace {

constexpr std::size_t most_steps_beyond = 32;  // that the kernels may write

std::size_t longest_day(const SunTable& sun) {
    std::size_t longest = 0;
    for (const SunTableDay& day : sun.days()) {
        longest = std::max(longest, std::size_t{day.sample_count});
    }
    return longest;
}

// Calls `task(day)` for each real day of the groups.
template <typename Task>
void for_each_day(const std::vector<std::uint16_t>& groups, std::size_t day_count,
                  const Task& task) {
    for (const std::uint16_t group : groups) {
        const std::size_t first = std::size_t{group} * days_at_once;
        const std::size_t end = std::min(first + days_at_once, day_count);
        for (std::size_t day = first; day < end; ++day) task(day);
    }
}

}  // namespace

ShadowFinder::ShadowFinder(const TraceScene& scene)
    : scene_(scene), viewer_(*scene.frames, *scene.kernels, scene.sky->sun_stays_above()) {
    end_group_ = static_cast<std::uint16_t>(scene.frames->lowest_sine.size());
    crossings_.resize(scene.frames->tan_declination.size());
    enters_.resize(longest_day(*scene.sun) + most_steps_beyond);
    leaves_.resize(enters_.size());
}

void ShadowFinder::set_groups(std::uint16_t first, std::uint16_t end) {
    first_group_ = first;
    end_group_ = end;
}

std::size_t ShadowFinder::first_day() const {
    return std::size_t{first_group_} * days_at_once;
}

std::size_t ShadowFinder::end_day() const {
    return std::min(std::size_t{end_group_} * days_at_once, scene_.frames->day_count);
}

void ShadowFinder::find_groups(const Ball& ball) {
    groups_.clear();
    add_groups_before(ball, spot_, *scene_.frames, first_group_, end_group_, groups_);
}

void ShadowFinder::add(std::uint16_t index, Vec3 spot, SpotItems& items) {
    const TracedPiece& piece = scene_.pieces[index];
    spot_ = spot;
    find_groups(piece.ball);
    if (groups_.empty()) return;
    target_ = {.piece = &piece,
               .index = index,
               .is_opaque = piece.is_opaque,
               .transmittance = piece.transmittance,
               .items = &items};
    switch (piece.kind) {
        case TraceKind::cone:
            return add_cone(piece.cone);
        case TraceKind::crown:
            return add_crown();
        case TraceKind::sheet:
            return add_sheet();
        case TraceKind::laths:
            return add_laths();
        case TraceKind::mesh:
            return add_mesh();
        case TraceKind::ray_by_ray:
            return add_ray_by_ray();
    }
}

void ShadowFinder::add_half_space(Vec3 outward, SpotItems& items) {
    target_ = {.is_opaque = true, .items = &items};
    groups_.clear();
    for (std::uint16_t g = first_group_; g < end_group_; ++g) groups_.push_back(g);
    add_crossings(viewer_.half_space(outward));
}

void ShadowFinder::add_cone(const ConeBody& body) {
    switch (viewer_.see(body, spot_)) {
        case ConeKind::nothing:
            return;
        case ConeKind::cone:
            return add_crossings(viewer_.planes());
        case ConeKind::all_round:
            return add_all_round();
        case ConeKind::doubtful:
            return add_ray_by_ray();
    }
}

void ShadowFinder::add_sheet() {
    switch (viewer_.see_border(target_.piece->cone, spot_)) {
        case ConeKind::nothing:
            return;
        case ConeKind::cone:
            return add_crossings(viewer_.planes());
        case ConeKind::all_round:
        case ConeKind::doubtful:
            return add_ray_by_ray();
    }
}

void ShadowFinder::add_span(std::size_t day, int from, int to, float transmittance) {
    if (from >= to) return;
    const TickSpan span{static_cast<std::uint16_t>(from), static_cast<std::uint16_t>(to)};
    const auto of_day = static_cast<std::uint16_t>(day);
    const bool is_dark = !(transmittance < 0.0F || transmittance > 0.0F);
    if (target_.is_opaque || is_dark) {
        target_.items->shades.add({.span = span, .day = of_day});
    } else {
        target_.items->veils.add(
            {.span = span, .day = of_day, .piece = target_.index, .transmittance = transmittance});
    }
}

void ShadowFinder::add_crossings(const ConePlanes& cone) {
    scene_.kernels->cone.cross_cone(cone, *scene_.frames, groups_, crossings_);
    take_crossings([&](std::size_t day, int from, int to) {
        scene_.kernels->cone.follow_cone(cone, scene_.directions_of(day), from, to, enters_.data(),
                                         leaves_.data());
    });
}

void ShadowFinder::add_crown() {
    const auto& body = std::get<geometry::Crown>(scene_.body_of(*target_.piece).body);
    if (scene_.sky->sun_stays_above() && body.base_centre.z + body.height_m <= spot_.z) return;
    const CrownView crown = crown_view(body, target_.piece->ball, spot_, *scene_.frames);
    const auto follow = [&](std::size_t day, int from, int to) {
        scene_.kernels->crown.follow_crown(crown, scene_.directions_of(day), from, to,
                                           enters_.data(), leaves_.data());
    };
    if (crown.shape == CrownShape::ellipsoid) {
        if (crown.is_within) return add_all_round();
        scene_.kernels->crown.cross_crown(crown, *scene_.frames, groups_, crossings_);
        return take_crossings(follow);
    }
    for_each_day(groups_, scene_.frames->day_count, [&](std::size_t day) {
        if (!may_dim(day)) return;
        const Ball& ball = target_.piece->ball;
        for (const SampleRange& range : samples_before(ball, spot_, *scene_.sun, day)) {
            if (range.from >= range.to) continue;
            follow(day, range.from, range.to);
            add_followed(day, range.from, range.to);
        }
    });
}

template <typename Follow>
void ShadowFinder::take_crossings(const Follow& follow) {
    const auto add_part = [&](std::size_t day, int from, int to) {
        if (from >= to) return;
        follow(day, from, to);
        add_followed(day, from, to);
    };
    for (const std::uint16_t group : groups_) {
        if (crossings_.any[group] == 0) continue;
        const std::size_t first = std::size_t{group} * days_at_once;
        const std::size_t end = std::min(first + days_at_once, scene_.frames->day_count);
        for (std::size_t day = first; day < end; ++day) {
            const auto kind = static_cast<CrossingKind>(crossings_.kind[day]);
            if (kind == CrossingKind::none || !may_dim(day)) continue;
            if (kind == CrossingKind::unclear) {
                add_part(day, crossings_.from[day], crossings_.to[day]);
                continue;
            }
            const TickSpan touch{
                static_cast<std::uint16_t>(crossings_.touch_from[day] * ticks_per_minute),
                static_cast<std::uint16_t>(crossings_.touch_to[day] * ticks_per_minute)};
            add_outside(touch, day, crossings_.from[day], crossings_.to[day]);
            add_outside(touch, day, crossings_.second_from[day], crossings_.second_to[day]);
            add_part(day, crossings_.touch_from[day], crossings_.touch_to[day]);
        }
    }
}

// A span but for what lies in `touch`.
void ShadowFinder::add_outside(TickSpan touch, std::size_t day, int from, int to) {
    if (touch.from >= touch.to) {
        add_span(day, from, to, target_.transmittance);
        return;
    }
    add_span(day, from, std::min(to, int{touch.from}), target_.transmittance);
    add_span(day, std::max(from, int{touch.to}), to, target_.transmittance);
}

// What was followed from sample to sample, stretches that join made one.
void ShadowFinder::add_followed(std::size_t day, int from, int to) {
    int start = 0;
    int end = -1;  // of the stretch at hand; none when before its start
    for (int step = from; step < to; ++step) {
        const auto at = static_cast<std::size_t>(step - from);
        if (enters_[at] >= leaves_[at]) continue;
        const int enter = step * ticks_per_minute + enters_[at];
        if (enter != end) {
            if (start < end) add_span(day, start, end, target_.transmittance);
            start = enter;
        }
        end = step * ticks_per_minute + leaves_[at];
    }
    if (start < end) add_span(day, start, end, target_.transmittance);
}

void ShadowFinder::add_all_round() {
    for (std::size_t day = first_day(); day < end_day(); ++day) {
        if (!may_dim(day)) continue;
        const int last = scene_.sun->days()[day].sample_count - 1;
        add_span(day, 0, last * ticks_per_minute + 1, target_.transmittance);
    }
}

void ShadowFinder::add_laths() {
    const TracedPiece& piece = *target_.piece;
    const Target whole = target_;
    lath_items_.clear();
    panel_items_.clear();
    target_ = {.piece = &piece, .is_opaque = true, .items = &lath_items_};
    for (const ConeBody& lath : piece.laths) {
        find_groups(lath.ball);
        if (!groups_.empty()) add_cone(lath);
    }
    find_groups(piece.cone.ball);
    target_.items = &panel_items_;
    // In the panel's own plane its mean is not crossed.
    if (viewer_.see(piece.cone, spot_) == ConeKind::cone) add_crossings(viewer_.planes());
    target_ = whole;
    lath_items_.sort(first_day(), end_day());
    panel_items_.sort(first_day(), end_day());
    const LathLook look(std::get<geometry::LathBody>(scene_.body_of(piece).body), spot_);
    for (std::size_t day = first_day(); day < end_day(); ++day) {
        lath_blend_.add(scene_, look, target_.index, day, lath_items_.shades.day(day),
                        panel_items_.shades.day(day), *target_.items);
    }
}

// Calls `ask(day, range)` for the stretches in which the sun is before the piece's box.
template <typename Ask>
void ShadowFinder::ask_in_box(const Ask& ask) {
    const Target whole = target_;
    const std::size_t day_count = scene_.frames->day_count;
    if (whole.piece->box.is_usable && viewer_.see(whole.piece->box, spot_) == ConeKind::cone) {
        box_items_.clear();
        target_ = {.piece = whole.piece, .is_opaque = true, .items = &box_items_};
        add_crossings(viewer_.planes());
        target_ = whole;
        for (const ShadeItem& item : box_items_.shades.all()) {
            const int last = scene_.sun->days()[item.day].sample_count - 1;
            const int to = (item.span.to + ticks_per_minute - 1) / ticks_per_minute;
            ask(std::size_t{item.day},
                SampleRange{item.span.from / ticks_per_minute, std::min(to, last)});
        }
        return;
    }
    for_each_day(groups_, day_count, [&](std::size_t day) {
        if (!may_dim(day)) return;
        for (const auto& range : samples_before(whole.piece->ball, spot_, *scene_.sun, day)) {
            ask(day, range);
        }
    });
}

void ShadowFinder::add_ray_by_ray() {
    ask_in_box([&](std::size_t day, SampleRange range) { add_ray_by_ray(day, range); });
}

// Where the transmittance varies, only whether the piece is met makes a span.
void ShadowFinder::add_ray_by_ray(std::size_t day, SampleRange range) {
    const geometry::Piece& body = scene_.body_of(*target_.piece);
    const geometry::PieceOptics optics = target_.piece->optics_on(day);
    const auto answer = [&](Vec3 direction) {
        const geometry::Passage passage = geometry::pass(body, optics, spot_, direction);
        return passage.is_met ? passage.transmittance : 1.0;
    };
    walk_samples(*scene_.sun, scene_.sun->days()[day], range.from, range.to, answer,
                 [&](int first, int end, double transmittance) {
                     if (transmittance >= 1.0) return;
                     add_span(day, first, end, static_cast<float>(transmittance));
                 });
}

void ShadowFinder::add_mesh() {
    ask_in_box([&](std::size_t day, SampleRange range) { add_mesh(day, range); });
}

// All samples in packets, then the ends between samples ray by ray.
void ShadowFinder::add_mesh(std::size_t day, SampleRange range) {
    constexpr int packet = 16;
    const EmbreeMesh& mesh = *target_.piece->mesh;
    const float* directions = scene_.directions_of(day);
    int start = -1;  // tick at which the shade at hand began; below 0: none
    bool was_blocked = false;
    for (int first = range.from; first <= range.to; first += packet) {
        const int count = std::min(packet, range.to - first + 1);
        const unsigned blocked =
            mesh.blocked(spot_, directions + row_floats * std::ptrdiff_t{first}, count);
        for (int i = 0; i < count; ++i) {
            const bool is_blocked = ((blocked >> static_cast<unsigned>(i)) & 1U) != 0;
            const int sample = first + i;
            if (is_blocked == was_blocked) continue;
            int tick = sample * ticks_per_minute;
            if (sample > range.from) {
                tick = change_tick(*scene_.sun, scene_.sun->days()[day], sample - 1, was_blocked,
                                   [&](Vec3 direction) {
                                       const float row[row_floats]{static_cast<float>(direction.x),
                                                                   static_cast<float>(direction.y),
                                                                   static_cast<float>(direction.z)};
                                       return mesh.blocked(spot_, row, 1) != 0;
                                   });
            }
            if (is_blocked) {
                start = tick;
            } else {
                add_span(day, start, tick, 0.0F);
            }
            was_blocked = is_blocked;
        }
    }
    if (was_blocked) add_span(day, start, range.to * ticks_per_minute + 1, 0.0F);
}

}  // namespace sunfleck::rays
