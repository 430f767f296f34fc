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
#include "rays/cone_arcs_inl.h"
#include "rays/cone_crossing_inl.h"
#include "rays/sun_lanes_inl.h"
// clang-format on

HWY_BEFORE_NAMESPACE();
namespace sunfleck::rays {
namespace HWY_NAMESPACE {
namespace SUNFLECK_LANES {

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
    const VF last = hn::ConvertTo(f, days.last_step);
    const auto sample = [&](VF hour_angle) { return sample_at(hour_angle, day_start, last); };
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
    store_days(found.kind, day, out.kind);
    store_days(found.from, day, out.from);
    store_days(found.to, day, out.to);
    store_days(found.second_from, day, out.second_from);
    store_days(found.second_to, day, out.second_to);
    store_days(found.touch_from, day, out.touch_from);
    store_days(found.touch_to, day, out.touch_to);
    return !hn::AllTrue(f, hn::Eq(found.kind, hn::Zero(f)));
}

void cross_cone(const ConePlanes& cone, const DayFrames& frames,
                std::span<const std::uint16_t> groups, ConeCrossings& out) {
    cross_groups(groups, out, [&](std::size_t day) { return cross_lanes(cone, frames, day, out); });
}

void follow_cone(const ConePlanes& cone, const float* directions, int from, int to,
                 std::uint8_t* enters, std::uint8_t* leaves) {
    const F f;
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
        store_ticks(enter_tick, enters + step - from);
        store_ticks(hn::Max(enter_tick, leave_tick), leaves + step - from);
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
