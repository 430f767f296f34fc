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
// Highway names it so. NOLINTNEXTLINE(readability-identifier-naming)
#define HWY_TARGET_INCLUDE "rays/cone_kernel.cpp"

#define SUNFLECK_MOST_LANES 16
#define SUNFLECK_LANES lanes_16
// The order of these matters.
// clang-format off
#include <hwy/foreach_target.h>
#include <hwy/highway.h>
#include "rays/sun_lanes_inl.h"
// clang-format on

HWY_BEFORE_NAMESPACE();
namespace sunfleck::rays {
namespace HWY_NAMESPACE {
namespace SUNFLECK_LANES {

// A plane may be passed by so much (radians) where another one's crossing is checked: rounding.
constexpr float slack = 4e-7F;

// Where a plane is crossed on the table.
struct Crossing {
    VF tick;      // first tick after it
    Point place;  // of the sun there
    MF is_found;
};

struct Days {
    const float* directions;
    VI first_sample;
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
    Point from;
    Point to;
    MF is_lost = none(f);
    for (int round = 0; round < 5; ++round) {
        const Step step =
            step_at(days.directions, hn::Add(days.first_sample, hn::ConvertTo(i, at)));
        from = step.from;
        to = step.to;
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

// The common part of all arcs, from `start` to `end` (hour angles), and a hole in it.
struct Arcs {
    VF start;
    VF end;
    VF hole_start;
    VF hole_end;
    VF start_plane;  // its number; below 0: none
    VF end_plane;
    VF hole_start_plane;  // below 0: no hole
    VF hole_end_plane;
    VF touch_start;  // hull of stretches that a plane may or may not cut out
    VF touch_end;
    MF is_empty;
    MF is_unclear;
};

// Ends of each plane's own arc, kept for the second look at planes that leave a hole.
struct ArcEnds {
    alignas(64) float low[ConePlanes::most * days_at_once];
    alignas(64) float high[ConePlanes::most * days_at_once];
    std::uint32_t with_hole = 0;   // bits of planes that have one on some day
    std::uint32_t with_touch = 0;  // that may just touch the circle
    std::uint32_t with_slant = 0;  // that are crossed at so small an angle that it may be thrice
};

// One group of days as the arcs need them.
struct DayArcs {
    VF tan_declination;
    VF stray;
    VF start;
    VF end;
    VF stray_rate;
    VF steady_from;
    VF steady_to;
};

// The cosines of half the plane's arc, widened and narrowed by the stray.
struct Cosines {
    VF outer;
    VF inner;
};

HWY_INLINE Cosines arc_cosines(const ConePlanes& cone, std::size_t plane, const DayArcs& days) {
    const F f;
    const VF margin = hn::Mul(hn::Set(f, cone.spread[plane]), days.stray);
    const VF cosine = hn::Mul(hn::Set(f, cone.slope[plane]), days.tan_declination);
    return {hn::Sub(cosine, margin), hn::Add(cosine, margin)};
}

// Half the width of an arc, not less than it is.
HWY_INLINE VF arc_width(VF cosine) {
    const F f;
    const VF one = hn::Set(f, 1.0F);
    const VF held = hn::Min(hn::Max(cosine, hn::Neg(one)), one);
    return hn::Add(arc_cosine(held), hn::Set(f, arc_error));
}

// A plane's arc lies around its middle; the day may reach the arc's next copy, a turn away, on
// that side where it begins or ends farther from noon. Then the plane cuts a hole out of the day
// rather than bound it on that side.
struct Copy {
    VF end;      // of the copy that faces the arc
    MF is_seen;  // within the day
};

HWY_INLINE Copy next_copy(float middle, VF low, VF high, const DayArcs& days) {
    const F f;
    if (middle >= 0.0F) {
        const VF end = hn::Sub(high, hn::Set(f, 2.0F * pi_f));
        return {end, hn::Gt(end, days.start)};
    }
    const VF end = hn::Add(low, hn::Set(f, 2.0F * pi_f));
    return {end, hn::Lt(end, days.end)};
}

HWY_INLINE void bound_start(MF where, VF at, VF plane, Arcs& arcs) {
    const MF is_later = hn::And(where, hn::Gt(at, arcs.start));
    arcs.start = hn::IfThenElse(is_later, at, arcs.start);
    arcs.start_plane = hn::IfThenElse(is_later, plane, arcs.start_plane);
}

HWY_INLINE void bound_end(MF where, VF at, VF plane, Arcs& arcs) {
    const MF is_earlier = hn::And(where, hn::Lt(at, arcs.end));
    arcs.end = hn::IfThenElse(is_earlier, at, arcs.end);
    arcs.end_plane = hn::IfThenElse(is_earlier, plane, arcs.end_plane);
}

// The circle runs along the plane: the height over it, which falls by the sine of half the arc's
// width, may be undone by the stray's own change.
HWY_INLINE MF is_slanting(const ConePlanes& cone, std::size_t plane, const Cosines& cosines,
                          VF stray_rate) {
    const F f;
    const VF rate = hn::Mul(hn::Set(f, cone.spread[plane]), stray_rate);
    // Of the places within the stray that where the arc falls most slowly.
    const VF farthest = hn::Max(hn::Abs(cosines.outer), hn::Abs(cosines.inner));
    const VF sine_square = hn::Sub(hn::Set(f, 1.0F), hn::Mul(farthest, farthest));
    return hn::Lt(sine_square, hn::Mul(rate, rate));
}

// First look: what each plane's own arc bounds.
HWY_INLINE void add_plane(const ConePlanes& cone, std::size_t plane, const DayArcs& days,
                          ArcEnds& ends, Arcs& arcs) {
    const F f;
    const VF one = hn::Set(f, 1.0F);
    const Cosines cosines = arc_cosines(cone, plane, days);
    arcs.is_empty = hn::Or(arcs.is_empty, hn::Ge(cosines.outer, one));
    arcs.is_unclear = hn::Or(arcs.is_unclear, hn::Ge(cosines.inner, one));
    const MF is_cut = hn::Gt(cosines.outer, hn::Neg(one));
    const MF touches = hn::AndNot(is_cut, hn::Gt(cosines.inner, hn::Neg(one)));
    if (!hn::AllFalse(f, touches)) ends.with_touch |= 1U << plane;
    if (hn::AllFalse(f, is_cut)) return;
    const MF slants = is_slanting(cone, plane, cosines, days.stray_rate);
    if (!hn::AllFalse(f, hn::And(is_cut, slants))) ends.with_slant |= 1U << plane;
    const float middle = cone.middle[plane];
    const VF width = arc_width(cosines.outer);
    const VF low = hn::Sub(hn::Set(f, middle), width);
    const VF high = hn::Add(hn::Set(f, middle), width);
    const MF has_copy = hn::And(is_cut, next_copy(middle, low, high, days).is_seen);
    const MF has_no_copy = hn::AndNot(has_copy, is_cut);
    const VF number = hn::Set(f, static_cast<float>(plane));
    const bool is_late = middle >= 0.0F;
    bound_start(is_late ? has_no_copy : is_cut, low, number, arcs);
    bound_end(is_late ? is_cut : has_no_copy, high, number, arcs);
    if (hn::AllFalse(f, has_copy)) return;
    ends.with_hole |= 1U << plane;
    hn::Store(low, f, ends.low + plane * days_at_once);
    hn::Store(high, f, ends.high + plane * days_at_once);
}

// Lets a hole that reaches over one end of the common part bound it there. Arcs are wider than
// they are, holes narrower, so a hole that reaches over an end here does so in truth.
HWY_INLINE MF absorb_hole(MF is_hole, VF from, VF to, VF from_plane, VF to_plane,
                          const DayArcs& days, Arcs& arcs) {
    const VF start = hn::Max(arcs.start, days.start);
    const VF end = hn::Min(arcs.end, days.end);
    MF is_in = hn::And(is_hole, hn::And(hn::Lt(from, end), hn::Gt(to, start)));
    const MF over_start = hn::And(is_in, hn::Le(from, start));
    const MF over_end = hn::And(is_in, hn::Ge(to, end));
    arcs.is_empty = hn::Or(arcs.is_empty, hn::And(over_start, over_end));
    bound_start(over_start, to, to_plane, arcs);
    bound_end(over_end, from, from_plane, arcs);
    is_in = hn::AndNot(over_start, is_in);
    return hn::AndNot(over_end, is_in);
}

// Second look at a plane that leaves a hole on some days.
HWY_INLINE void add_hole(const ConePlanes& cone, std::size_t plane, const DayArcs& days,
                         const ArcEnds& ends, Arcs& arcs) {
    const F f;
    const VF low = hn::Load(f, ends.low + plane * days_at_once);
    const VF high = hn::Load(f, ends.high + plane * days_at_once);
    const float middle = cone.middle[plane];
    const Copy copy = next_copy(middle, low, high, days);
    const MF is_cut = hn::Gt(arc_cosines(cone, plane, days).outer, hn::Set(f, -1.0F));
    const bool is_late = middle >= 0.0F;
    const VF from = is_late ? copy.end : high;
    const VF to = is_late ? low : copy.end;
    const VF number = hn::Set(f, static_cast<float>(plane));
    const MF is_left =
        absorb_hole(hn::And(is_cut, copy.is_seen), from, to, number, number, days, arcs);
    // Holes that overlap are one; two apart are left unclear.
    const MF has_hole = hn::Ge(arcs.hole_start_plane, hn::Zero(f));
    const MF is_second = hn::And(is_left, has_hole);
    const MF overlaps = hn::And(hn::Le(from, arcs.hole_end), hn::Ge(to, arcs.hole_start));
    arcs.is_unclear = hn::Or(arcs.is_unclear, hn::AndNot(overlaps, is_second));
    const MF is_first = hn::AndNot(has_hole, is_left);
    const MF starts = hn::Or(is_first, hn::And(is_second, hn::Lt(from, arcs.hole_start)));
    const MF ends_it = hn::Or(is_first, hn::And(is_second, hn::Gt(to, arcs.hole_end)));
    arcs.hole_start = hn::IfThenElse(starts, from, arcs.hole_start);
    arcs.hole_start_plane = hn::IfThenElse(starts, number, arcs.hole_start_plane);
    arcs.hole_end = hn::IfThenElse(ends_it, to, arcs.hole_end);
    arcs.hole_end_plane = hn::IfThenElse(ends_it, number, arcs.hole_end_plane);
}

// Makes [from, to] part of what is left to be followed, where it concerns the common part.
HWY_INLINE void widen_touch(MF where, VF from, VF to, const DayArcs& days, Arcs& arcs) {
    const MF is_near = hn::And(where, hn::And(hn::Lt(from, hn::Min(arcs.end, days.end)),
                                              hn::Gt(to, hn::Max(arcs.start, days.start))));
    arcs.touch_start = hn::IfThenElse(is_near, hn::Min(arcs.touch_start, from), arcs.touch_start);
    arcs.touch_end = hn::IfThenElse(is_near, hn::Max(arcs.touch_end, to), arcs.touch_end);
}

// A plane that is crossed at a small angle, so that within the stray it may be crossed more than
// once: it is followed there. Near the horizon refraction changes fast, elsewhere hardly.
HWY_INLINE void add_slant(const ConePlanes& cone, std::size_t plane, const DayArcs& days,
                          Arcs& arcs) {
    const F f;
    const Cosines cosines = arc_cosines(cone, plane, days);
    const VF minus_one = hn::Set(f, -1.0F);
    const MF slants = hn::And(hn::Gt(cosines.outer, minus_one),
                              is_slanting(cone, plane, cosines, days.stray_rate));
    // The stray's rate is over the cosine of the declination: so is this one, if at most by 9 %.
    const MF always =
        hn::And(slants, is_slanting(cone, plane, cosines, hn::Set(f, 1.1F * steady_stray_rate)));
    const VF wide = arc_width(cosines.outer);
    const VF narrow =
        hn::Sub(arc_cosine(hn::Min(hn::Max(cosines.inner, minus_one), hn::Set(f, 1.0F))),
                hn::Set(f, arc_error));
    const VF middle = hn::Set(f, cone.middle[plane]);
    for (const float turn : {-2.0F * pi_f, 0.0F, 2.0F * pi_f}) {
        const VF at = hn::Add(middle, hn::Set(f, turn));
        for (const bool is_low : {true, false}) {
            const VF from = is_low ? hn::Sub(at, wide) : hn::Add(at, narrow);
            const VF to = is_low ? hn::Sub(at, narrow) : hn::Add(at, wide);
            const MF is_unsteady =
                hn::Or(hn::Lt(from, days.steady_from), hn::Gt(to, days.steady_to));
            widen_touch(hn::Or(always, hn::And(slants, is_unsteady)), from, to, days, arcs);
        }
    }
}

// A plane that may just touch the circle, around the far side of its arc's middle, leaves it
// unclear whether it cuts something out there.
HWY_INLINE void add_touch(const ConePlanes& cone, std::size_t plane, const DayArcs& days,
                          Arcs& arcs) {
    const F f;
    const Cosines cosines = arc_cosines(cone, plane, days);
    const VF minus_one = hn::Set(f, -1.0F);
    const MF touches = hn::And(hn::Gt(cosines.inner, minus_one), hn::Le(cosines.outer, minus_one));
    const VF half = arc_width(hn::Neg(cosines.inner));
    const float middle = cone.middle[plane];
    const VF far_side = hn::Set(f, middle >= 0.0F ? middle - pi_f : middle + pi_f);
    const VF from = hn::Sub(far_side, half);
    const VF to = hn::Add(far_side, half);
    widen_touch(touches, from, to, days, arcs);
}

HWY_INLINE Arcs common_arcs(const ConePlanes& cone, const DayArcs& days) {
    const F f;
    const VF no_plane = hn::Set(f, -1.0F);
    const VF far = hn::Set(f, beyond);
    const VF zero = hn::Zero(f);
    Arcs arcs{hn::Neg(far),
              far,
              zero,
              zero,
              no_plane,
              no_plane,
              no_plane,
              no_plane,
              far,
              hn::Neg(far),
              hn::Ge(days.start, days.end),
              none(f)};
    ArcEnds ends;
    for (int k = 0; k < cone.count; ++k) {
        add_plane(cone, static_cast<std::size_t>(k), days, ends, arcs);
        const MF is_gone = hn::Or(
            arcs.is_empty, hn::Gt(hn::Max(arcs.start, days.start), hn::Min(arcs.end, days.end)));
        arcs.is_empty = is_gone;
        if (hn::AllTrue(f, is_gone)) return arcs;
    }
    for (std::uint32_t rest = ends.with_hole; rest != 0; rest &= rest - 1) {
        add_hole(cone, static_cast<std::size_t>(std::countr_zero(rest)), days, ends, arcs);
    }
    if (ends.with_hole != 0) {
        const MF is_hole = hn::Ge(arcs.hole_start_plane, zero);
        const MF is_left = absorb_hole(is_hole, arcs.hole_start, arcs.hole_end,
                                       arcs.hole_start_plane, arcs.hole_end_plane, days, arcs);
        arcs.hole_start_plane = hn::IfThenElse(is_left, arcs.hole_start_plane, no_plane);
        arcs.hole_end_plane = hn::IfThenElse(is_left, arcs.hole_end_plane, no_plane);
    }
    for (std::uint32_t rest = ends.with_touch; rest != 0; rest &= rest - 1) {
        add_touch(cone, static_cast<std::size_t>(std::countr_zero(rest)), days, arcs);
    }
    for (std::uint32_t rest = ends.with_slant; rest != 0; rest &= rest - 1) {
        add_slant(cone, static_cast<std::size_t>(std::countr_zero(rest)), days, arcs);
    }
    arcs.is_empty =
        hn::Or(arcs.is_empty, hn::Gt(hn::Max(arcs.start, days.start), hn::Min(arcs.end, days.end)));
    return arcs;
}

// What one group of lanes writes.
struct Found {
    VF kind;
    VF from;
    VF to;
    VF second_from;
    VF second_to;
    VF touch_from;  // samples between which a plane may cut something out; none when not before
    VF touch_to;
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
                            VF day_start, VF stray) {
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
    // Arcs were widened by the stray; the table is on average within.
    const Crossing start =
        find_crossing<true>(cone, days, arcs.start_plane, sample(hn::Add(arcs.start, stray)));
    const Crossing end =
        find_crossing<false>(cone, days, arcs.end_plane, sample(hn::Sub(arcs.end, stray)));
    MF is_sure = hn::And(start.is_found, end.is_found);
    MF start_is_inside = is_inside(cone, start.place);
    MF end_is_inside = is_inside(cone, end.place);
    Found found{zero, start.tick, end.tick, zero, zero, zero, zero};
    const MF is_holed = hn::Ge(arcs.hole_start_plane, zero);
    if (!hn::AllFalse(f, is_holed)) {
        const Crossing out = find_crossing<false>(cone, days, arcs.hole_start_plane,
                                                  sample(hn::Sub(arcs.hole_start, stray)));
        const Crossing in = find_crossing<true>(cone, days, arcs.hole_end_plane,
                                                sample(hn::Add(arcs.hole_end, stray)));
        is_sure = hn::And(is_sure, cut_hole(cone, is_holed, start, end, out, in, start_is_inside,
                                            end_is_inside, found));
    }
    const MF has_none =
        hn::And(hn::Ge(found.from, found.to), hn::Ge(found.second_from, found.second_to));
    const MF is_checked = hn::Or(has_none, hn::And(start_is_inside, end_is_inside));
    const MF is_clear = hn::And(hn::And(is_sure, is_checked), hn::Not(arcs.is_unclear));
    const VF one = hn::Set(f, 1.0F);
    const MF is_touched = hn::And(is_clear, hn::Lt(arcs.touch_start, arcs.touch_end));
    const MF is_nothing = hn::AndNot(is_touched, has_none);
    found.kind = hn::IfThenElse(is_clear, hn::IfThenElse(is_nothing, zero, one), hn::Set(f, 2.0F));
    // Unclear: the samples around.
    const VF from_sample = hn::Max(hn::Sub(hn::Floor(start_guess), one), zero);
    const VF to_sample = hn::Min(hn::Add(hn::Ceil(end_guess), one), hn::Add(last, one));
    found.from = hn::IfThenElse(is_clear, found.from, from_sample);
    found.to = hn::IfThenElse(is_clear, found.to, to_sample);
    found.touch_from = hn::IfThenElseZero(
        is_touched, hn::Max(hn::Sub(hn::Floor(sample(arcs.touch_start)), one), zero));
    found.touch_to = hn::IfThenElseZero(
        is_touched, hn::Min(hn::Add(hn::Ceil(sample(arcs.touch_end)), one), hn::Add(last, one)));
    return found;
}

bool cross_lanes(const ConePlanes& cone, const DayFrames& frames, std::size_t day,
                 ConeCrossings& out) {
    const F f;
    const I i;
    const VF day_start = hn::LoadU(f, &frames.start_hour_angle[day]);
    const VF last = hn::LoadU(f, &frames.last_sample[day]);
    const VF day_end = hn::Add(day_start, hn::Mul(last, hn::Set(f, hour_angle_per_minute)));
    const VF stray = hn::LoadU(f, &frames.stray_over_cos[day]);
    const Arcs arcs = common_arcs(
        cone, {hn::LoadU(f, &frames.tan_declination[day]), stray, day_start, day_end,
               hn::LoadU(f, &frames.stray_rate_over_cos[day]),
               hn::LoadU(f, &frames.steady_from[day]), hn::LoadU(f, &frames.steady_to[day])});
    if (hn::AllTrue(f, arcs.is_empty)) {
        hn::StoreU(hn::Zero(i), i, &out.kind[day]);
        return false;
    }
    const VI last_step = hn::Max(hn::ConvertTo(i, hn::Sub(last, hn::Set(f, 1.0F))), hn::Zero(i));
    const Days days{frames.directions.data(), hn::LoadU(i, &frames.first_sample[day]), last_step};
    Found found = find_spans(cone, days, arcs, day_start, stray);
    found.kind = hn::IfThenElse(arcs.is_empty, hn::Zero(f), found.kind);
    const auto store = [&](VF value, std::vector<std::int32_t>& column) {
        hn::StoreU(hn::ConvertTo(I(), value), I(), &column[day]);
    };
    store(found.kind, out.kind);
    store(found.from, out.from);
    store(found.to, out.to);
    store(found.second_from, out.second_from);
    store(found.second_to, out.second_to);
    store(found.touch_from, out.touch_from);
    store(found.touch_to, out.touch_to);
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
        const Point a = suns_from(directions + std::ptrdiff_t{row_floats} * step);
        const Point b = suns_from(directions + std::ptrdiff_t{row_floats} * (step + 1));
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

// Of 0 <= x <= 1, to 1e-5. Abramowitz & Stegun 4.4.49.
HWY_INLINE VF arc_tangent(VF x) {
    const F f;
    const VF s = hn::Mul(x, x);
    VF p = hn::Set(f, 0.0208351F);
    p = hn::Add(hn::Mul(p, s), hn::Set(f, -0.0851330F));
    p = hn::Add(hn::Mul(p, s), hn::Set(f, 0.1801410F));
    p = hn::Add(hn::Mul(p, s), hn::Set(f, -0.3302995F));
    p = hn::Add(hn::Mul(p, s), hn::Set(f, 0.9998660F));
    return hn::Mul(p, x);
}

HWY_INLINE VF arc_tangent(VF y, VF x) {
    const F f;
    const VF zero = hn::Zero(f);
    const VF ax = hn::Abs(x);
    const VF ay = hn::Abs(y);
    const VF largest = hn::Max(hn::Max(ax, ay), hn::Set(f, 1e-30F));
    VF angle = arc_tangent(hn::Div(hn::Min(ax, ay), largest));
    angle = hn::IfThenElse(hn::Gt(ay, ax), hn::Sub(hn::Set(f, 0.5F * pi_f), angle), angle);
    angle = hn::IfThenElse(hn::Lt(x, zero), hn::Sub(hn::Set(f, pi_f), angle), angle);
    return hn::IfThenElse(hn::Lt(y, zero), hn::Neg(angle), angle);
}

void set_arcs(const DayFrames& frames, ConePlanes& cone) {
    const F f;
    const auto along = [&](Vec3 axis, VF x, VF y, VF z) {
        return product(hn::Set(f, static_cast<float>(axis.x)),
                       hn::Set(f, static_cast<float>(axis.y)),
                       hn::Set(f, static_cast<float>(axis.z)), Point{x, y, z});
    };
    const std::size_t count = static_cast<std::size_t>(cone.count);
    for (std::size_t k = 0; k < count; k += hn::Lanes(f)) {
        const VF x = hn::LoadU(f, &cone.x[k]);
        const VF y = hn::LoadU(f, &cone.y[k]);
        const VF z = hn::LoadU(f, &cone.z[k]);
        const VF size = hn::Sqrt(product(x, y, z, {x, y, z}));
        const VF meridian = along(frames.meridian, x, y, z);
        const VF square = hn::Sqrt(hn::Add(hn::Mul(meridian, meridian), hn::Mul(x, x)));
        const VF safe = hn::Max(square, hn::Mul(size, hn::Set(f, 1e-6F)));
        hn::StoreU(size, f, &cone.size[k]);
        hn::StoreU(hn::Div(along(frames.pole, x, y, z), safe), f, &cone.slope[k]);
        hn::StoreU(hn::Div(size, safe), f, &cone.spread[k]);
        // Inside lies around where the equator's part of the normal points away: west is -x.
        hn::StoreU(arc_tangent(x, hn::Neg(meridian)), f, &cone.middle[k]);
    }
}

}  // namespace SUNFLECK_LANES

ConeKernels cone_kernels() {
    return {.set_arcs = &SUNFLECK_LANES::set_arcs,
            .cross_cone = &SUNFLECK_LANES::cross_cone,
            .follow_cone = &SUNFLECK_LANES::follow_cone};
}

}  // namespace HWY_NAMESPACE
}  // namespace sunfleck::rays
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace sunfleck::rays {

HWY_EXPORT(cone_kernels);

ConeKernels cone_kernels_for(std::int64_t target) {
    hwy::ChosenTarget chosen;
    chosen.Update(target);
    return HWY_DISPATCH_TABLE(cone_kernels)[chosen.GetIndex()]();
}

}  // namespace sunfleck::rays
#endif
