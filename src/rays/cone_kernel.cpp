// How the sun's path is cut by a cone, a lane for each day.
//
// A plane through the spot with normal n cuts the day's circle where
//   n_pole sin(dec) + cos(dec) (n_meridian cos H + n_west sin H) = 0,
// so the part inside is the arc |H - middle| <= acos(slope tan(dec)). The table's sun strays from
// its circle by a known amount, which widens the arcs: what is empty now is empty. The arcs' latest
// start and earliest end name the two planes that bound the shadow; their crossings are then found
// on the table itself, and there all other planes are asked. Days on which that check fails (near
// a corner of the outline, or where a plane touches the circle) are left to follow_cone.
#include "rays/light_kernels.h"

#include <bit>
#include <cstddef>

#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "rays/cone_kernel.cpp"
#include <hwy/foreach_target.h>
#include <hwy/highway.h>

HWY_BEFORE_NAMESPACE();
namespace sunfleck::rays {
namespace HWY_NAMESPACE {

namespace hn = hwy::HWY_NAMESPACE;

using F = hn::CappedTag<float, 16>;
using I = hn::Rebind<std::int32_t, F>;
using VF = hn::Vec<F>;
using VI = hn::Vec<I>;
using MF = hn::Mask<F>;

constexpr float pi_f = 3.14159265F;
constexpr float beyond = 1e9F;
// Of the polynomials for acos and atan, radians, and some.
constexpr float arc_error = 3e-4F;
// A plane may be passed by so much (radians) where another one's crossing is checked: rounding.
constexpr float slack = 4e-7F;
constexpr float ticks = static_cast<float>(ticks_per_minute);

// acos for -1 <= x <= 1, to 6.8e-5. Abramowitz & Stegun 4.4.45.
HWY_INLINE VF arc_cosine(VF x) {
    const F f;
    const VF a = hn::Abs(x);
    VF p = hn::Set(f, -0.0187293F);
    p = hn::Add(hn::Mul(p, a), hn::Set(f, 0.0742610F));
    p = hn::Add(hn::Mul(p, a), hn::Set(f, -0.2121144F));
    p = hn::Add(hn::Mul(p, a), hn::Set(f, 1.5707288F));
    p = hn::Mul(p, hn::Sqrt(hn::Sub(hn::Set(f, 1.0F), a)));
    return hn::IfThenElse(hn::Lt(x, hn::Zero(f)), hn::Sub(hn::Set(f, pi_f), p), p);
}

HWY_INLINE MF none(F f) {
    return hn::Lt(hn::Zero(f), hn::Zero(f));
}

struct Point {
    VF x;
    VF y;
    VF z;
};

// The sun at sample `index` (counted in floats from the table's start).
HWY_INLINE Point sun_at(const float* directions, VI index) {
    const F f;
    return {hn::GatherIndex(f, directions, index), hn::GatherIndex(f, directions + 1, index),
            hn::GatherIndex(f, directions + 2, index)};
}

HWY_INLINE VF product(VF nx, VF ny, VF nz, Point d) {
    return hn::Add(hn::Add(hn::Mul(nx, d.x), hn::Mul(ny, d.y)), hn::Mul(nz, d.z));
}

// Where a plane is crossed on the table.
struct Crossing {
    VF tick;      // first tick after it
    Point place;  // of the sun there
    MF is_found;
};

struct Days {
    const float* directions;
    VI first_index;
    VI last_step;  // the last sample from which a step leads on
};

// The crossing of plane `k` (lanes with k < 0: none) into the cone (`is_entry`) or out of it.
// Never entering or leaving within the day counts as crossing at one of its ends.
template <bool is_entry>
HWY_INLINE Crossing find_crossing(const ConePlanes& cone, const Days& days, VF k, VF guess) {
    const F f;
    const I i;
    const MF has_no_plane = hn::Lt(k, hn::Zero(f));
    const VI plane = hn::ConvertTo(i, hn::Max(k, hn::Zero(f)));
    const VF sign = hn::Set(f, is_entry ? 1.0F : -1.0F);
    const VF nx = hn::Mul(sign, hn::GatherIndex(f, cone.x.data(), plane));
    const VF ny = hn::Mul(sign, hn::GatherIndex(f, cone.y.data(), plane));
    const VF nz = hn::Mul(sign, hn::GatherIndex(f, cone.z.data(), plane));
    const VF last = hn::ConvertTo(f, days.last_step);
    // Without a plane: in from the start, out at the end.
    const VF none_at = is_entry ? hn::Zero(f) : last;
    VF at = hn::Min(hn::Max(hn::Floor(guess), hn::Zero(f)), last);
    at = hn::IfThenElse(has_no_plane, none_at, at);
    MF is_done = has_no_plane;
    VF done_at = none_at;
    VF share = hn::Set(f, is_entry ? -1.0F : 2.0F);  // below 0: before the day; above 1: after
    Point from = sun_at(days.directions, days.first_index);
    Point to = from;
    MF is_lost = none(f);
    for (int round = 0; round < 5; ++round) {
        const VI index = hn::Add(days.first_index, hn::Mul(hn::ConvertTo(i, at), hn::Set(i, 3)));
        from = sun_at(days.directions, index);
        to = sun_at(days.directions, hn::Add(index, hn::Set(i, 3)));
        // With the sign turned for exits, g falls through zero at the crossing. On an entry the
        // sample with g <= 0 is inside, on an exit that with g >= 0.
        const VF g0 = product(nx, ny, nz, from);
        const VF g1 = product(nx, ny, nz, to);
        const MF before = is_entry ? hn::Gt(g0, hn::Zero(f)) : hn::Ge(g0, hn::Zero(f));
        const MF after = is_entry ? hn::Le(g1, hn::Zero(f)) : hn::Lt(g1, hn::Zero(f));
        const MF is_falling = hn::Lt(g1, g0);
        const VF fall = hn::IfThenElse(is_falling, hn::Sub(g0, g1), hn::Set(f, 1.0F));
        const VF way = hn::Div(g0, fall);
        const MF is_here = hn::And(before, after);
        // Crossed before the day's first sample, or not before its last.
        const MF is_early = hn::And(hn::Eq(at, hn::Zero(f)), hn::Not(before));
        const MF is_late = hn::And(hn::Eq(at, last), hn::Not(after));
        const MF ends = hn::And(hn::Or(is_here, hn::Or(is_early, is_late)), hn::Not(is_done));
        share = hn::IfThenElse(ends, way, share);
        share = hn::IfThenElse(hn::And(ends, is_early), hn::Set(f, -1.0F), share);
        share = hn::IfThenElse(hn::And(ends, hn::And(is_late, hn::Not(is_here))), hn::Set(f, 2.0F),
                               share);
        done_at = hn::IfThenElse(ends, at, done_at);
        is_done = hn::Or(is_done, ends);
        const VF next = hn::Min(hn::Max(hn::Add(at, hn::Floor(way)), hn::Zero(f)), last);
        is_lost = hn::Or(is_lost, hn::And(hn::Not(is_done), hn::Not(is_falling)));
        at = hn::IfThenElse(is_done, done_at, next);
        if (hn::AllTrue(f, hn::Or(is_done, is_lost))) break;
    }
    // `from` and `to` are those of the last round, which for done lanes is where they ended.
    const VF one = hn::Set(f, 1.0F);
    const VF along = hn::Max(hn::Min(share, one), hn::Zero(f));
    Crossing crossing;
    crossing.place = {hn::Add(from.x, hn::Mul(along, hn::Sub(to.x, from.x))),
                      hn::Add(from.y, hn::Mul(along, hn::Sub(to.y, from.y))),
                      hn::Add(from.z, hn::Mul(along, hn::Sub(to.z, from.z)))};
    // At least one tick after the sample before, at most on the sample after.
    VF tick = hn::Min(hn::Max(hn::Ceil(hn::Mul(along, hn::Set(f, ticks))), one), hn::Set(f, ticks));
    tick = hn::Add(tick, hn::Mul(done_at, hn::Set(f, ticks)));
    const VF end = hn::Add(hn::Mul(hn::Add(last, one), hn::Set(f, ticks)), one);
    tick = hn::IfThenElse(hn::Gt(share, hn::Set(f, 1.5F)), end, tick);
    tick = hn::IfThenElse(hn::Lt(share, hn::Zero(f)), hn::Zero(f), tick);
    crossing.tick = tick;
    crossing.is_found = is_done;
    return crossing;
}

// True where the place is inside all planes, but for rounding.
HWY_INLINE MF is_inside(const ConePlanes& cone, Point place) {
    const F f;
    MF inside = hn::Not(none(f));
    for (int k = 0; k < cone.count; ++k) {
        const std::size_t p = static_cast<std::size_t>(k);
        const VF g =
            product(hn::Set(f, cone.x[p]), hn::Set(f, cone.y[p]), hn::Set(f, cone.z[p]), place);
        inside = hn::And(inside, hn::Le(g, hn::Set(f, slack * cone.size[p])));
    }
    return inside;
}

// The common part of all arcs: between `start` and `end` (hour angles) without a hole.
struct Arcs {
    VF start;
    VF end;
    VF hole_start;
    VF hole_end;
    VF start_plane;  // its number; below 0: none
    VF end_plane;
    VF hole_plane;
    VF touch_start;  // hull of stretches that a plane may or may not cut out
    VF touch_end;
    MF is_empty;
    MF is_unclear;
};

HWY_INLINE void add_plane(const ConePlanes& cone, int k, VF tan_declination, VF stray, VF day_start,
                          VF day_end, Arcs& arcs) {
    const F f;
    const std::size_t p = static_cast<std::size_t>(k);
    const VF one = hn::Set(f, 1.0F);
    const VF margin = hn::Mul(hn::Set(f, cone.spread[p]), stray);
    const VF middle_cosine = hn::Mul(hn::Set(f, cone.slope[p]), tan_declination);
    const VF cosine = hn::Sub(middle_cosine, margin);
    const VF inner_cosine = hn::Add(middle_cosine, margin);
    arcs.is_empty = hn::Or(arcs.is_empty, hn::Ge(cosine, one));
    const VF width = hn::Add(arc_cosine(hn::Min(hn::Max(cosine, hn::Set(f, -1.0F)), one)),
                             hn::Set(f, arc_error));
    const MF is_cut = hn::Gt(cosine, hn::Set(f, -1.0F));
    const MF may_cut = hn::Gt(inner_cosine, hn::Set(f, -1.0F));
    const MF may_be_empty = hn::Ge(inner_cosine, one);
    arcs.is_unclear = hn::Or(arcs.is_unclear, may_be_empty);
    const float middle = cone.middle[p];
    const VF low = hn::Sub(hn::Set(f, middle), width);
    const VF high = hn::Add(hn::Set(f, middle), width);
    const VF plane = hn::Set(f, static_cast<float>(k));
    // The next copy of the arc, a turn away on the side where the day reaches it first.
    const bool is_late = middle >= 0.0F;
    const VF copy =
        is_late ? hn::Sub(high, hn::Set(f, 2.0F * pi_f)) : hn::Add(low, hn::Set(f, 2.0F * pi_f));
    const MF has_copy = is_late ? hn::Gt(copy, day_start) : hn::Lt(copy, day_end);
    const MF is_hole = hn::And(is_cut, has_copy);
    const MF bounds_start = is_late ? hn::AndNot(has_copy, is_cut) : is_cut;
    const MF bounds_end = is_late ? is_cut : hn::AndNot(has_copy, is_cut);
    const MF is_later = hn::And(bounds_start, hn::Gt(low, arcs.start));
    arcs.start = hn::IfThenElse(is_later, low, arcs.start);
    arcs.start_plane = hn::IfThenElse(is_later, plane, arcs.start_plane);
    const MF is_earlier = hn::And(bounds_end, hn::Lt(high, arcs.end));
    arcs.end = hn::IfThenElse(is_earlier, high, arcs.end);
    arcs.end_plane = hn::IfThenElse(is_earlier, plane, arcs.end_plane);
    if (!hn::AllFalse(f, is_hole)) {
        const MF has_hole = hn::Ge(arcs.hole_plane, hn::Zero(f));
        arcs.is_unclear = hn::Or(arcs.is_unclear, hn::And(is_hole, has_hole));
        const MF is_first = hn::AndNot(has_hole, is_hole);
        arcs.hole_start = hn::IfThenElse(is_first, is_late ? copy : high, arcs.hole_start);
        arcs.hole_end = hn::IfThenElse(is_first, is_late ? low : copy, arcs.hole_end);
        arcs.hole_plane = hn::IfThenElse(is_first, plane, arcs.hole_plane);
    }
    // A plane that may just touch the circle, around the far side of its arc's middle.
    const MF touches = hn::AndNot(is_cut, may_cut);
    if (!hn::AllFalse(f, touches)) {
        const VF half =
            hn::Add(arc_cosine(hn::Min(
                        hn::Max(hn::Sub(hn::Zero(f), inner_cosine), hn::Set(f, -1.0F)), one)),
                    hn::Set(f, arc_error));
        const VF far_side = hn::Set(f, is_late ? middle - pi_f : middle + pi_f);
        arcs.touch_start = hn::IfThenElse(
            touches, hn::Min(arcs.touch_start, hn::Sub(far_side, half)), arcs.touch_start);
        arcs.touch_end = hn::IfThenElse(touches, hn::Max(arcs.touch_end, hn::Add(far_side, half)),
                                        arcs.touch_end);
    }
}

HWY_INLINE Arcs common_arcs(const ConePlanes& cone, VF tan_declination, VF stray, VF day_start,
                            VF day_end) {
    const F f;
    Arcs arcs;
    arcs.start = hn::Set(f, -beyond);
    arcs.end = hn::Set(f, beyond);
    arcs.hole_start = hn::Set(f, beyond);
    arcs.hole_end = hn::Set(f, -beyond);
    arcs.touch_start = hn::Set(f, beyond);
    arcs.touch_end = hn::Set(f, -beyond);
    arcs.start_plane = hn::Set(f, -1.0F);
    arcs.end_plane = hn::Set(f, -1.0F);
    arcs.hole_plane = hn::Set(f, -1.0F);
    arcs.is_empty = hn::Ge(day_start, day_end);
    arcs.is_unclear = none(f);
    for (int k = 0; k < cone.count; ++k) {
        add_plane(cone, k, tan_declination, stray, day_start, day_end, arcs);
        if (hn::AllTrue(f, arcs.is_empty)) break;
    }
    // The arcs' common part as it lies in the day.
    const VF start = hn::Max(arcs.start, day_start);
    const VF end = hn::Min(arcs.end, day_end);
    arcs.is_empty = hn::Or(arcs.is_empty, hn::Gt(start, end));
    const MF is_holed = hn::And(hn::Lt(arcs.hole_start, end), hn::Gt(arcs.hole_end, start));
    arcs.hole_plane = hn::IfThenElse(is_holed, arcs.hole_plane, hn::Set(f, -1.0F));
    const MF is_touched = hn::And(hn::Lt(arcs.touch_start, end), hn::Gt(arcs.touch_end, start));
    arcs.is_unclear = hn::Or(arcs.is_unclear, is_touched);
    return arcs;
}

// What one group of lanes writes.
struct Found {
    VF kind;
    VF from;
    VF to;
    VF second_from;
    VF second_to;
};

// Cuts the stretch from `start` to `end` by the hole; true where that is sure.
HWY_INLINE MF cut_hole(const ConePlanes& cone, MF is_holed, const Crossing& start,
                       const Crossing& end, const Crossing& out, const Crossing& in,
                       MF& start_is_inside, MF& end_is_inside, Found& found) {
    const F f;
    const MF no_hole = hn::Not(is_holed);
    const MF cuts_end = hn::And(is_holed, hn::Lt(out.tick, end.tick));
    const MF cuts_start = hn::And(is_holed, hn::Gt(in.tick, start.tick));
    const MF has_first = hn::Lt(start.tick, hn::Min(out.tick, end.tick));
    const MF has_second = hn::Lt(hn::Max(in.tick, start.tick), end.tick);
    found.to = hn::IfThenElse(cuts_end, out.tick, end.tick);
    found.second_from = hn::IfThenElse(is_holed, hn::Max(in.tick, start.tick), hn::Zero(f));
    found.second_to = hn::IfThenElse(is_holed, end.tick, hn::Zero(f));
    // Ends matter where they end a span.
    const MF start_matters = hn::Or(no_hole, hn::Or(has_first, hn::AndNot(cuts_start, has_second)));
    const MF end_matters = hn::Or(no_hole, hn::Or(has_second, hn::AndNot(cuts_end, has_first)));
    start_is_inside = hn::Or(start_is_inside, hn::Not(start_matters));
    end_is_inside = hn::Or(end_is_inside, hn::Not(end_matters));
    MF is_sure = hn::And(hn::And(out.is_found, in.is_found), hn::Lt(out.tick, in.tick));
    is_sure =
        hn::And(is_sure, hn::Or(is_inside(cone, out.place), hn::Not(hn::And(cuts_end, has_first))));
    is_sure = hn::And(is_sure,
                      hn::Or(is_inside(cone, in.place), hn::Not(hn::And(cuts_start, has_second))));
    return hn::Or(no_hole, is_sure);
}

HWY_INLINE Found find_spans(const ConePlanes& cone, const Days& days, const Arcs& arcs,
                            VF day_start) {
    const F f;
    const VF zero = hn::Zero(f);
    const VF per_minute = hn::Set(f, 1.0F / hour_angle_per_minute);
    const VF last = hn::ConvertTo(f, days.last_step);
    const auto sample = [&](VF hour_angle) {
        const VF at = hn::Mul(hn::Sub(hour_angle, day_start), per_minute);
        return hn::Min(hn::Max(at, hn::Zero(F())), last);
    };
    const VF start_guess = sample(arcs.start);
    const VF end_guess = sample(arcs.end);
    const Crossing start = find_crossing<true>(cone, days, arcs.start_plane, start_guess);
    const Crossing end = find_crossing<false>(cone, days, arcs.end_plane, end_guess);
    MF is_sure = hn::And(start.is_found, end.is_found);
    MF start_is_inside = is_inside(cone, start.place);
    MF end_is_inside = is_inside(cone, end.place);
    Found found{zero, start.tick, end.tick, zero, zero};
    const MF is_holed = hn::Ge(arcs.hole_plane, zero);
    if (!hn::AllFalse(f, is_holed)) {
        const Crossing out =
            find_crossing<false>(cone, days, arcs.hole_plane, sample(arcs.hole_start));
        const Crossing in = find_crossing<true>(cone, days, arcs.hole_plane, sample(arcs.hole_end));
        is_sure = hn::And(is_sure, cut_hole(cone, is_holed, start, end, out, in, start_is_inside,
                                            end_is_inside, found));
    }
    const MF has_none =
        hn::And(hn::Ge(found.from, found.to), hn::Ge(found.second_from, found.second_to));
    const MF is_checked = hn::Or(has_none, hn::And(start_is_inside, end_is_inside));
    const MF is_clear = hn::And(hn::And(is_sure, is_checked), hn::Not(arcs.is_unclear));
    const VF one = hn::Set(f, 1.0F);
    found.kind = hn::IfThenElse(is_clear, hn::IfThenElse(has_none, zero, one), hn::Set(f, 2.0F));
    // Unclear: the samples around.
    const VF from_sample = hn::Max(hn::Sub(hn::Floor(start_guess), one), zero);
    const VF to_sample = hn::Min(hn::Add(hn::Ceil(end_guess), one), hn::Add(last, one));
    found.from = hn::IfThenElse(is_clear, found.from, from_sample);
    found.to = hn::IfThenElse(is_clear, found.to, to_sample);
    return found;
}

bool cross_lanes(const ConePlanes& cone, const DayFrames& frames, std::size_t day,
                 ConeCrossings& out) {
    const F f;
    const I i;
    const VF day_start = hn::LoadU(f, &frames.start_hour_angle[day]);
    const VF last = hn::LoadU(f, &frames.last_sample[day]);
    const VF day_end = hn::Add(day_start, hn::Mul(last, hn::Set(f, hour_angle_per_minute)));
    const Arcs arcs = common_arcs(cone, hn::LoadU(f, &frames.tan_declination[day]),
                                  hn::LoadU(f, &frames.stray_over_cos[day]), day_start, day_end);
    if (hn::AllTrue(f, arcs.is_empty)) {
        hn::StoreU(hn::Zero(i), i, &out.kind[day]);
        return false;
    }
    const VI last_step = hn::Max(hn::ConvertTo(i, hn::Sub(last, hn::Set(f, 1.0F))), hn::Zero(i));
    const Days days{frames.directions.data(),
                    hn::Mul(hn::LoadU(i, &frames.first_sample[day]), hn::Set(i, 3)), last_step};
    Found found = find_spans(cone, days, arcs, day_start);
    found.kind = hn::IfThenElse(arcs.is_empty, hn::Zero(f), found.kind);
    const auto store = [&](VF value, std::vector<std::int32_t>& column) {
        hn::StoreU(hn::ConvertTo(I(), value), I(), &column[day]);
    };
    store(found.kind, out.kind);
    store(found.from, out.from);
    store(found.to, out.to);
    store(found.second_from, out.second_from);
    store(found.second_to, out.second_to);
    return !hn::AllTrue(f, hn::Eq(found.kind, hn::Zero(f)));
}

void cross_cone(const ConePlanes& cone, const DayFrames& frames,
                std::span<const std::uint16_t> groups, ConeCrossings& out) {
    const std::size_t lanes = hn::Lanes(F());
    for (const std::uint16_t group : groups) {
        const std::size_t first = std::size_t{group} * days_at_once;
        bool any = false;
        for (std::size_t day = first; day < first + days_at_once; day += lanes) {
            any = cross_lanes(cone, frames, day, out) || any;
        }
        out.any[group] = any ? 1 : 0;
    }
}

void follow_cone(const ConePlanes& cone, const float* directions, int from, int to,
                 std::uint8_t* enters, std::uint8_t* leaves) {
    const F f;
    const I i;
    const hn::Rebind<std::uint8_t, F> bytes;
    const int lanes = static_cast<int>(hn::Lanes(f));
    const VF zero = hn::Zero(f);
    const VF one = hn::Set(f, 1.0F);
    for (int step = from; step < to; step += lanes) {
        const VI index = hn::Mul(hn::Iota(i, step), hn::Set(i, 3));
        const Point a = sun_at(directions, index);
        const Point b = sun_at(directions, hn::Add(index, hn::Set(i, 3)));
        VF enter = zero;  // the latest share of the step at which a plane lets in
        VF leave = hn::Set(f, 2.0F);
        for (int k = 0; k < cone.count; ++k) {
            const std::size_t p = static_cast<std::size_t>(k);
            const VF nx = hn::Set(f, cone.x[p]);
            const VF ny = hn::Set(f, cone.y[p]);
            const VF nz = hn::Set(f, cone.z[p]);
            const VF g0 = product(nx, ny, nz, a);
            const VF g1 = product(nx, ny, nz, b);
            const MF is_out = hn::Gt(g0, zero);
            const MF ends_out = hn::Gt(g1, zero);
            const MF crosses = hn::Xor(is_out, ends_out);
            const VF share = hn::Div(g0, hn::IfThenElse(crosses, hn::Sub(g0, g1), one));
            // An entry lies after the sample before: its tick is at least 1.
            const VF smallest = hn::Set(f, 1e-6F);
            enter = hn::IfThenElse(hn::And(crosses, is_out),
                                   hn::Max(enter, hn::Max(share, smallest)), enter);
            leave = hn::IfThenElse(hn::And(crosses, ends_out),
                                   hn::Min(leave, hn::Max(share, smallest)), leave);
            leave = hn::IfThenElse(hn::And(is_out, ends_out), hn::Set(f, -1.0F), leave);
        }
        const VF top = hn::Set(f, ticks);
        const VF enter_tick = hn::Min(hn::Ceil(hn::Mul(enter, top)), top);
        const VF leave_tick = hn::Min(hn::Ceil(hn::Mul(hn::Max(leave, zero), top)), top);
        hn::StoreU(hn::DemoteTo(bytes, hn::ConvertTo(i, enter_tick)), bytes, enters + step - from);
        hn::StoreU(hn::DemoteTo(bytes, hn::ConvertTo(i, hn::Max(enter_tick, leave_tick))), bytes,
                   leaves + step - from);
    }
}

LightKernels kernels() {
    return {.name = {}, .cross_cone = &cross_cone, .follow_cone = &follow_cone};
}

}  // namespace HWY_NAMESPACE
}  // namespace sunfleck::rays
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace sunfleck::rays {

HWY_EXPORT(kernels);

void ConeCrossings::resize(std::size_t padded_days) {
    for (auto* column : {&kind, &from, &to, &second_from, &second_to}) {
        column->assign(padded_days, 0);
    }
    any.assign(padded_days / days_at_once, 0);
}

namespace {

std::vector<LightKernels> made_kernels() {
    std::vector<LightKernels> made;
    const auto usable = static_cast<std::uint64_t>(hwy::SupportedTargets());
    // Lower bits stand for better targets.
    for (std::uint64_t rest = usable & std::uint64_t{HWY_TARGETS}; rest != 0; rest &= rest - 1) {
        const auto target = static_cast<std::int64_t>(rest & (~rest + 1));
        hwy::ChosenTarget chosen;
        chosen.Update(target);
        LightKernels own = HWY_DISPATCH_TABLE(kernels)[chosen.GetIndex()]();
        own.name = hwy::TargetName(target);
        made.push_back(own);
    }
    return made;
}

}  // namespace

const std::vector<LightKernels>& all_light_kernels() {
    static const std::vector<LightKernels> made = made_kernels();
    return made;
}

const LightKernels& light_kernels(std::string_view name) {
    const std::vector<LightKernels>& all = all_light_kernels();
    for (const LightKernels& own : all) {
        if (own.name == name) return own;
    }
    return all.front();
}

}  // namespace sunfleck::rays
#endif
