// The arcs of hour angle in which a day's circle may lie inside a cone, a lane for each day: by the
// planes' own arcs, widened by how far the table's sun strays from the circle. Included once for
// each instruction set, as sun_lanes_inl.h is.
#if defined(SUNFLECK_RAYS_CONE_ARCS_INL_H) == defined(HWY_TARGET_TOGGLE)
#ifdef SUNFLECK_RAYS_CONE_ARCS_INL_H
#undef SUNFLECK_RAYS_CONE_ARCS_INL_H
#else
#define SUNFLECK_RAYS_CONE_ARCS_INL_H
#endif

#include "rays/sun_lanes_inl.h"

#include <bit>
#include <cstddef>
#include <cstdint>

HWY_BEFORE_NAMESPACE();
namespace sunfleck::rays {
namespace HWY_NAMESPACE {
namespace SUNFLECK_LANES {

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
}  // namespace HWY_NAMESPACE
}  // namespace sunfleck::rays
HWY_AFTER_NAMESPACE();

#endif  // include guard per target
