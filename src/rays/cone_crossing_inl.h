// Where the sun of the table crosses the planes of a cone, a lane for each day. Included once for
// each instruction set, as sun_lanes_inl.h is.
#if defined(SUNFLECK_RAYS_CONE_CROSSING_INL_H) == defined(HWY_TARGET_TOGGLE)
#ifdef SUNFLECK_RAYS_CONE_CROSSING_INL_H
#undef SUNFLECK_RAYS_CONE_CROSSING_INL_H
#else
#define SUNFLECK_RAYS_CONE_CROSSING_INL_H
#endif

#include "rays/sun_lanes_inl.h"

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

}  // namespace SUNFLECK_LANES
}  // namespace HWY_NAMESPACE
}  // namespace sunfleck::rays
HWY_AFTER_NAMESPACE();

#endif  // include guard per target
