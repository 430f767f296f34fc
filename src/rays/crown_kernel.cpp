// When the sun is behind a crown, a lane for each day, and how much light comes through.
//
// For an ellipsoid, f(d) = |turn d|^2 - |arm d|^2 is above zero where the ray meets it. Over the
// arc of hour angle that the ball around it fills, f is nearly a parabola: three samples give its
// roots to about a minute, secants on the table do the rest. Days on which the parabola does not
// cross zero clearly are left to follow_crown, which looks at every step.
#include "rays/light_kernels.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#undef HWY_TARGET_INCLUDE
// Highway names it so. NOLINTNEXTLINE(readability-identifier-naming)
#define HWY_TARGET_INCLUDE "rays/crown_kernel.cpp"

#define SUNFLECK_MOST_LANES 8
#define SUNFLECK_LANES lanes_8
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

constexpr float all_round = 1.4F;     // radians; from here on a ball is looked for all day
constexpr float widest_reach = 1.2F;  // radians; a wider ball is followed all day

HWY_INLINE Point mapped(const std::array<float, 9>& m, Point d) {
    const F f;
    const auto row = [&](std::size_t r) {
        return product(hn::Set(f, m[r]), hn::Set(f, m[r + 1]), hn::Set(f, m[r + 2]), d);
    };
    return {row(0), row(3), row(6)};
}

HWY_INLINE VF square(Point p) {
    return product(p.x, p.y, p.z, p);
}

HWY_INLINE VF with_place(const CrownView& crown, Point e) {
    const F f;
    return product(hn::Set(f, crown.place[0]), hn::Set(f, crown.place[1]),
                   hn::Set(f, crown.place[2]), e);
}

// Above zero where a ray from outside meets the ellipsoid ahead.
HWY_INLINE VF depth(const CrownView& crown, Point d) {
    const F f;
    const Point e = mapped(crown.turn, d);
    const VF value = hn::Sub(square(e), square(mapped(crown.arm, d)));
    const VF away = hn::Neg(hn::Abs(value));
    return hn::IfThenElse(hn::Lt(with_place(crown, e), hn::Zero(f)), value, away);
}

// A stretch of a ray, empty when to < from.
struct Stretch {
    VF from;
    VF to;
};

HWY_INLINE Stretch common(Stretch a, Stretch b) {
    return {hn::Max(a.from, b.from), hn::Min(a.to, b.to)};
}

// Where 0 <= place + t speed <= 1.
HWY_INLINE Stretch in_slab(float place, VF speed) {
    const F f;
    const VF small = hn::Set(f, 1e-12F);
    const VF safe = hn::IfThenElse(hn::Lt(hn::Abs(speed), small), small, speed);
    const VF one = hn::Div(hn::Set(f, -place), safe);
    const VF other = hn::Div(hn::Set(f, 1.0F - place), safe);
    return {hn::Min(one, other), hn::Max(one, other)};
}

// Where a t^2 + 2 b t + c <= 0 for a > 0, `disc` = b^2 - a c.
HWY_INLINE Stretch between_roots(VF a, VF b, VF disc) {
    const F f;
    const VF safe = hn::Max(a, hn::Set(f, 1e-20F));
    const VF root = hn::Sqrt(hn::Max(disc, hn::Zero(f)));
    const VF from = hn::Div(hn::Neg(hn::Add(b, root)), safe);
    const VF to = hn::Div(hn::Sub(root, b), safe);
    const VF far = hn::Set(f, 1e9F);
    const MF is_missed = hn::Lt(disc, hn::Zero(f));
    return {hn::IfThenElse(is_missed, far, from), hn::IfThenElse(is_missed, hn::Neg(far), to)};
}

HWY_INLINE VF ahead(Stretch stretch) {
    const F f;
    const VF path = hn::Sub(stretch.to, hn::Max(stretch.from, hn::Zero(f)));
    return hn::Max(path, hn::Zero(f));
}

HWY_INLINE VF cone_path(const CrownView& crown, Point e, VF round_a, VF round_b, float round_c) {
    const F f;
    // x^2 + y^2 <= z^2 with z counted down from the tip.
    const float tip = 1.0F - crown.place[2];
    const VF a = hn::Sub(round_a, hn::Mul(e.z, e.z));
    const VF b = hn::Add(round_b, hn::Mul(hn::Set(f, tip), e.z));
    const VF c = hn::Set(f, round_c - tip * tip);
    const VF disc = hn::Sub(hn::Mul(b, b), hn::Mul(a, c));
    const Stretch slab = in_slab(crown.place[2], e.z);
    const VF level = ahead(common(between_roots(a, b, disc), slab));
    // Steeper than the side: inside outside the roots, of which one part lies in the slab. Nearly
    // parallel to the side one root is far away, and the other is c / (-2 b).
    const VF root = hn::Sqrt(hn::Max(disc, hn::Zero(f)));
    const VF q = hn::Neg(hn::Add(b, hn::CopySign(root, b)));
    const VF tiny = hn::Set(f, 1e-12F);
    const VF safe_a = hn::IfThenElse(hn::Lt(hn::Abs(a), tiny), hn::Neg(tiny), a);
    const VF safe_q = hn::IfThenElse(hn::Lt(hn::Abs(q), tiny), hn::CopySign(tiny, q), q);
    const VF one = hn::Div(q, safe_a);
    const VF other = hn::Div(c, safe_q);
    const VF far = hn::Set(f, 1e9F);
    const VF before = ahead(common(slab, {hn::Neg(far), hn::Min(one, other)}));
    const VF after = ahead(common(slab, {hn::Max(one, other), far}));
    return hn::IfThenElse(hn::Gt(a, hn::Zero(f)), level, hn::Max(before, after));
}

// Metres of the rays in the crown.
HWY_INLINE VF path_m(const CrownView& crown, Point d) {
    const F f;
    const Point e = mapped(crown.turn, d);
    if (crown.shape == CrownShape::ellipsoid || crown.shape == CrownShape::dome) {
        const VF a = square(e);
        const VF b = with_place(crown, e);
        const VF disc = hn::Sub(a, square(mapped(crown.arm, d)));
        const Stretch whole = between_roots(a, b, disc);
        if (crown.shape == CrownShape::dome) {
            return ahead(common(whole, in_slab(crown.place[2], e.z)));
        }
        if (crown.is_within) return ahead(whole);
        const VF path = hn::Div(hn::Mul(hn::Set(f, 2.0F), hn::Sqrt(hn::Max(disc, hn::Zero(f)))),
                                hn::Max(a, hn::Set(f, 1e-20F)));
        return hn::IfThenElseZero(hn::Lt(b, hn::Zero(f)), path);
    }
    const float x = crown.place[0];
    const float y = crown.place[1];
    const VF round_a = hn::Add(hn::Mul(e.x, e.x), hn::Mul(e.y, e.y));
    const VF round_b = hn::Add(hn::Mul(hn::Set(f, x), e.x), hn::Mul(hn::Set(f, y), e.y));
    const float round_c = x * x + y * y;
    if (crown.shape == CrownShape::cone) return cone_path(crown, e, round_a, round_b, round_c);
    // b^2 - a (c - 1) = a - (x e_y - y e_x)^2.
    const VF turn = hn::Sub(hn::Mul(hn::Set(f, x), e.y), hn::Mul(hn::Set(f, y), e.x));
    const VF disc = hn::Sub(round_a, hn::Mul(turn, turn));
    // A ray along the axis is inside for ever or never.
    const MF is_along = hn::Lt(round_a, hn::Set(f, 1e-12F));
    const VF far = hn::Set(f, round_c <= 1.0F ? 1e9F : -1e9F);
    Stretch round = between_roots(round_a, round_b, disc);
    round.from = hn::IfThenElse(is_along, hn::Neg(far), round.from);
    round.to = hn::IfThenElse(is_along, far, round.to);
    return ahead(common(round, in_slab(crown.place[2], e.z)));
}

// exp(-x) for x >= 0, to 2e-7 relative; exp(-80) beyond 80.
HWY_INLINE VF fading(VF x) {
    const F f;
    const I i;
    const VF held = hn::Min(x, hn::Set(f, 80.0F));
    const VF n = hn::Round(hn::Mul(held, hn::Set(f, 1.44269504F)));
    // ln 2 in two parts; the first has few digits, so that n times it is exact.
    VF r = hn::Sub(held, hn::Mul(n, hn::Set(f, 0.693359375F)));
    r = hn::Sub(r, hn::Mul(n, hn::Set(f, -2.12194440e-4F)));
    r = hn::Neg(r);
    VF p = hn::Set(f, 1.0F / 720.0F);
    for (const float c : {1.0F / 120.0F, 1.0F / 24.0F, 1.0F / 6.0F, 0.5F, 1.0F, 1.0F}) {
        p = hn::Add(hn::Mul(p, r), hn::Set(f, c));
    }
    const VI exponent = hn::Sub(hn::Set(i, 127), hn::ConvertTo(i, n));
    return hn::Mul(p, hn::BitCast(f, hn::ShiftLeft<23>(exponent)));
}

struct Root {
    VF tick;
    MF is_found;
};

// The zero of depth near `guess`, rising (an entry) or falling.
template <bool is_entry>
HWY_NOINLINE Root find_root(const CrownView& crown, const float* directions, VI first_sample,
                            VF last, VF guess) {
    const F f;
    const I i;
    const VF zero = hn::Zero(f);
    const VF one = hn::Set(f, 1.0F);
    VF at = hn::Min(hn::Max(hn::Floor(guess), zero), last);
    MF is_done = none(f);
    VF tick = zero;
    const VF end = hn::Add(hn::Mul(hn::Add(last, one), hn::Set(f, ticks)), one);
    for (int round = 0; round < 6; ++round) {
        const Step step = step_at(directions, hn::Add(first_sample, hn::ConvertTo(i, at)));
        VF g0 = depth(crown, step.from);
        VF g1 = depth(crown, step.to);
        if (is_entry) {
            g0 = hn::Neg(g0);
            g1 = hn::Neg(g1);
        }
        // Now g falls through zero; on an entry what is met has g < 0, on an exit g > 0.
        const MF before = is_entry ? hn::Ge(g0, zero) : hn::Gt(g0, zero);
        const MF after = is_entry ? hn::Lt(g1, zero) : hn::Le(g1, zero);
        const VF fall = hn::Sub(g0, g1);
        const MF is_falling = hn::Gt(fall, zero);
        const VF way = hn::Div(g0, hn::IfThenElse(is_falling, fall, one));
        const MF is_here = hn::And(before, after);
        const MF is_early = hn::And(hn::Eq(at, zero), hn::Not(before));
        const MF is_late = hn::And(hn::Eq(at, last), hn::Not(after));
        const VF share =
            hn::Min(hn::Max(hn::Ceil(hn::Mul(way, hn::Set(f, ticks))), one), hn::Set(f, ticks));
        VF here = hn::Add(hn::Mul(at, hn::Set(f, ticks)), share);
        here = hn::IfThenElse(is_early, zero, hn::IfThenElse(is_here, here, end));
        const MF ends = hn::AndNot(is_done, hn::Or(is_here, hn::Or(is_early, is_late)));
        tick = hn::IfThenElse(ends, here, tick);
        is_done = hn::Or(is_done, ends);
        const VF next = hn::Min(hn::Max(hn::Add(at, hn::Floor(way)), zero), last);
        at = hn::IfThenElse(hn::And(is_falling, hn::Not(is_done)), next, at);
        if (hn::AllTrue(f, hn::Or(is_done, hn::Not(is_falling)))) break;
    }
    return {tick, is_done};
}

// The day's arc before the ball: samples from `low` over `middle` to `high`.
struct BallArc {
    VF low;
    VF middle;
    VF high;
    MF is_empty;
    MF is_unclear;
};

HWY_INLINE BallArc ball_arc(const CrownView& crown, VF tan_declination, VF stray, VF day_start,
                            VF last_sample) {
    const F f;
    const VF one = hn::Set(f, 1.0F);
    const VF day_end = hn::Add(day_start, hn::Mul(last_sample, hn::Set(f, hour_angle_per_minute)));
    // cos(reach + stray) = sin sin + cos cos cos(half), divided by the sun's cosine; the stray over
    // the cosine is not less than the stray.
    const VF stretch = hn::Sqrt(hn::Add(one, hn::Mul(tan_declination, tan_declination)));
    const VF reach = hn::Add(hn::Set(f, crown.reach), stray);
    // cos by its series is not below the true one by more than reach^8 / 40320: held by the margin.
    const VF s = hn::Mul(reach, reach);
    VF cos_reach = hn::Set(f, -1.0F / 720.0F);
    cos_reach = hn::Add(hn::Mul(cos_reach, s), hn::Set(f, 1.0F / 24.0F));
    cos_reach = hn::Add(hn::Mul(cos_reach, s), hn::Set(f, -0.5F));
    cos_reach = hn::Add(hn::Mul(cos_reach, s), one);
    const VF needed =
        hn::Sub(hn::Mul(cos_reach, stretch), hn::Mul(hn::Set(f, crown.sine), tan_declination));
    const VF cosine = hn::Div(needed, hn::Set(f, std::max(crown.cosine, 1e-4F)));
    BallArc arc;
    arc.is_empty = hn::Gt(cosine, one);
    const VF held = hn::Max(hn::Min(cosine, one), hn::Neg(one));
    const VF half = hn::Add(arc_cosine(held), hn::Set(f, arc_error));
    const VF middle = hn::Set(f, crown.middle);
    const VF low = hn::Sub(middle, half);
    const VF high = hn::Add(middle, half);
    // Another copy of the arc in the day, or too wide a one for a parabola.
    const VF turn = hn::Set(f, 2.0F * pi_f);
    const MF has_copy =
        hn::Or(hn::Gt(hn::Sub(high, turn), day_start), hn::Lt(hn::Add(low, turn), day_end));
    arc.is_unclear = hn::Or(has_copy, hn::Gt(half, hn::Set(f, widest_reach)));
    const MF is_outside = hn::Or(hn::Gt(low, day_end), hn::Lt(high, day_start));
    arc.is_empty = hn::Or(arc.is_empty, hn::AndNot(has_copy, is_outside));
    arc.is_empty = hn::Or(arc.is_empty, hn::Le(last_sample, hn::Zero(f)));
    const auto sample = [&](VF hour_angle) {
        return sample_at(hour_angle, day_start, last_sample);
    };
    if (crown.reach >= all_round) {
        arc.low = hn::Zero(f);
        arc.high = last_sample;
        arc.is_unclear = hn::Not(none(f));
        arc.is_empty = hn::Le(last_sample, hn::Zero(f));
        arc.middle = hn::Zero(f);
        return arc;
    }
    arc.low = hn::Floor(hn::IfThenElseZero(hn::Not(has_copy), sample(low)));
    arc.high = hn::IfThenElse(has_copy, last_sample, hn::Ceil(sample(high)));
    arc.middle = hn::Round(hn::Mul(hn::Add(arc.low, arc.high), hn::Set(f, 0.5F)));
    return arc;
}

// Roots of the parabola through three samples; both at its top where it stays below zero.
struct Guess {
    VF entry;
    VF exit;
    MF is_clear;   // crosses zero
    MF is_missed;  // stays well below
};

HWY_INLINE Guess parabola_roots(const BallArc& arc, VF g_low, VF g_middle, VF g_high) {
    const F f;
    const VF zero = hn::Zero(f);
    const VF one = hn::Set(f, 1.0F);
    const VF left = hn::Max(hn::Sub(arc.middle, arc.low), one);
    const VF right = hn::Max(hn::Sub(arc.high, arc.middle), one);
    // g = g_middle + slope x - bend x^2 with x from the middle.
    const VF fall_left = hn::Div(hn::Sub(g_middle, g_low), left);
    const VF fall_right = hn::Div(hn::Sub(g_high, g_middle), right);
    const VF width = hn::Add(left, right);
    const VF bend = hn::Div(hn::Sub(fall_left, fall_right), width);
    const VF slope = hn::Add(fall_left, hn::Neg(hn::Mul(bend, left)));
    const MF is_hill = hn::Gt(bend, zero);
    const VF safe_bend = hn::IfThenElse(is_hill, bend, one);
    const VF half_slope = hn::Mul(slope, hn::Set(f, 0.5F));
    const VF disc = hn::Add(hn::Mul(half_slope, half_slope), hn::Mul(safe_bend, g_middle));
    const VF root = hn::Sqrt(hn::Max(disc, zero));
    Guess guess;
    guess.entry = hn::Add(arc.middle, hn::Div(hn::Sub(half_slope, root), safe_bend));
    guess.exit = hn::Add(arc.middle, hn::Div(hn::Add(half_slope, root), safe_bend));
    // How high the top is, counted in the parabola's own fall over half its width.
    const VF top = hn::Div(disc, safe_bend);
    const VF scale = hn::Mul(safe_bend, hn::Mul(hn::Mul(width, width), hn::Set(f, 0.25F)));
    // The third and fourth differences of the true curve are of the order of the width (radians).
    const VF doubt =
        hn::Add(hn::Set(f, 0.1F), hn::Mul(width, hn::Set(f, 0.5F * hour_angle_per_minute)));
    const VF unsure = hn::Mul(scale, doubt);
    const MF all_below =
        hn::And(hn::Lt(g_low, zero), hn::And(hn::Lt(g_middle, zero), hn::Lt(g_high, zero)));
    guess.is_missed = hn::And(is_hill, hn::And(all_below, hn::Lt(top, hn::Neg(unsure))));
    const MF ends_below = hn::And(hn::Lt(g_low, zero), hn::Lt(g_high, zero));
    guess.is_clear = hn::And(is_hill, hn::And(hn::Gt(g_middle, zero), ends_below));
    return guess;
}

bool cross_crown_lanes(const CrownView& crown, const DayFrames& frames, std::size_t day,
                       ConeCrossings& out) {
    const F f;
    const I i;
    const VF last_sample = hn::LoadU(f, &frames.last_sample[day]);
    const BallArc arc = ball_arc(crown, hn::LoadU(f, &frames.tan_declination[day]),
                                 hn::LoadU(f, &frames.stray_over_cos[day]),
                                 hn::LoadU(f, &frames.start_hour_angle[day]), last_sample);
    const VF zero = hn::Zero(f);
    const VF one = hn::Set(f, 1.0F);
    VF kind = zero;
    if (!hn::AllTrue(f, arc.is_empty)) {
        const VI first = hn::LoadU(i, &frames.first_sample[day]);
        const VF last = hn::Max(hn::Sub(last_sample, one), zero);
        const float* directions = frames.directions.data();
        const auto depth_at = [&](VF sample) {
            alignas(64) std::int32_t places[days_at_once];
            hn::Store(hn::Add(first, hn::ConvertTo(I(), hn::Max(sample, hn::Zero(F())))), I(),
                      places);
            return depth(crown, rows_at(directions, places));
        };
        const Guess guess =
            parabola_roots(arc, depth_at(arc.low), depth_at(arc.middle), depth_at(arc.high));
        const Root entry = find_root<true>(crown, directions, first, last, guess.entry);
        const Root exit = find_root<false>(crown, directions, first, last, guess.exit);
        MF is_sure = hn::And(entry.is_found, exit.is_found);
        is_sure = hn::And(is_sure, hn::And(guess.is_clear, hn::Lt(entry.tick, exit.tick)));
        is_sure = hn::AndNot(arc.is_unclear, is_sure);
        const MF is_none = hn::Or(arc.is_empty, hn::AndNot(arc.is_unclear, guess.is_missed));
        kind = hn::IfThenElse(is_none, zero, hn::IfThenElse(is_sure, one, hn::Set(f, 2.0F)));
        store_days(hn::IfThenElse(is_sure, entry.tick, arc.low), day, out.from);
        store_days(hn::IfThenElse(is_sure, exit.tick, arc.high), day, out.to);
        for (auto* column : {&out.second_from, &out.second_to, &out.touch_from, &out.touch_to}) {
            store_days(zero, day, *column);
        }
    }
    store_days(kind, day, out.kind);
    return !hn::AllTrue(f, hn::Eq(kind, zero));
}

void cross_crown(const CrownView& crown, const DayFrames& frames,
                 std::span<const std::uint16_t> groups, ConeCrossings& out) {
    cross_groups(groups, out,
                 [&](std::size_t day) { return cross_crown_lanes(crown, frames, day, out); });
}

// A step is met from one end to the other, or from where depth passes zero on the straight line;
// shapes without a depth are met from the middle of the step in which they begin.
void follow_crown(const CrownView& crown, const float* directions, int from, int to,
                  std::uint8_t* enters, std::uint8_t* leaves) {
    const F f;
    const int lanes = static_cast<int>(hn::Lanes(f));
    const VF zero = hn::Zero(f);
    const VF one = hn::Set(f, 1.0F);
    const VF top = hn::Set(f, ticks);
    const bool has_depth = crown.shape == CrownShape::ellipsoid && !crown.is_within;
    for (int step = from; step < to; step += lanes) {
        const Point a = suns_from(directions + std::ptrdiff_t{row_floats} * step);
        const Point b = suns_from(directions + std::ptrdiff_t{row_floats} * (step + 1));
        const VF g0 = has_depth ? depth(crown, a) : path_m(crown, a);
        const VF g1 = has_depth ? depth(crown, b) : path_m(crown, b);
        const MF starts_in = hn::Gt(g0, zero);
        const MF ends_in = hn::Gt(g1, zero);
        const MF crosses = hn::Xor(starts_in, ends_in);
        VF share = hn::Set(f, 0.5F);
        if (has_depth) {
            share = hn::Div(g0, hn::IfThenElse(crosses, hn::Sub(g0, g1), one));
        }
        const VF tick = hn::Min(hn::Max(hn::Ceil(hn::Mul(share, top)), one), top);
        const VF enter = hn::IfThenElse(starts_in, zero, hn::IfThenElse(ends_in, tick, top));
        const VF leave = hn::IfThenElse(ends_in, top, hn::IfThenElse(starts_in, tick, zero));
        store_ticks(enter, enters + step - from);
        store_ticks(hn::Max(enter, leave), leaves + step - from);
    }
}

// Gauss-Legendre's eight points on [-1, 1] (Abramowitz & Stegun, table 25.4) taken as angles: with
// t = middle + half sin(u) the square roots at which crowns begin and end become smooth. Sines of
// pi/2 times the points, and cosines times weights, whose sum is made 1.
constexpr std::array<float, 8> node_places{-0.998055214F, -0.949425384F, -0.734889939F,
                                           -0.284167924F, 0.284167924F,  0.734889939F,
                                           0.949425384F,  0.998055214F};
constexpr std::array<float, 8> node_weights{0.00495601381F, 0.0548412357F, 0.167094698F,
                                            0.273108052F,   0.273108052F,  0.167094698F,
                                            0.0548412357F,  0.00495601381F};

static_assert(node_places.size() == panel_nodes);

// Where the sun is at the nodes.
void place_nodes(const LightPanel& panel, std::size_t first, PanelRoom& room) {
    const F f;
    const I i;
    const VF per_tick = hn::Set(f, 1.0F / ticks);
    const VF middle = hn::Set(f, 0.5F * (panel.from_tick + panel.to_tick));
    const VF half = hn::Set(f, 0.5F * (panel.to_tick - panel.from_tick));
    for (std::size_t node = 0; node < panel_nodes; node += hn::Lanes(f)) {
        const VF place = hn::LoadU(f, &node_places[node]);
        const VF at = hn::Mul(hn::Add(middle, hn::Mul(half, place)), per_tick);
        const VF sample = hn::Floor(at);
        const Step step = step_at(panel.directions, hn::ConvertTo(i, sample));
        const VF share = hn::Sub(at, sample);
        const auto between = [&](VF a, VF b) { return hn::Add(a, hn::Mul(share, hn::Sub(b, a))); };
        const std::size_t to = first + node;
        hn::StoreU(between(step.from.x, step.to.x), f, &room.x[to]);
        hn::StoreU(between(step.from.y, step.to.y), f, &room.y[to]);
        hn::StoreU(between(step.from.z, step.to.z), f, &room.z[to]);
        hn::StoreU(hn::Zero(f), f, &room.depth[to]);
    }
}

void add_layer(const PanelLayer& layer, PanelRoom& room) {
    const F f;
    const VF k = hn::Set(f, layer.k_per_m);
    for (std::size_t node = 0; node < panel_nodes; node += hn::Lanes(f)) {
        const std::size_t at = panel_nodes * layer.panel + node;
        const Point sun{hn::LoadU(f, &room.x[at]), hn::LoadU(f, &room.y[at]),
                        hn::LoadU(f, &room.z[at])};
        const VF depth = hn::LoadU(f, &room.depth[at]);
        hn::StoreU(hn::Add(depth, hn::Mul(k, path_m(*layer.crown, sun))), f, &room.depth[at]);
    }
}

float weighted_light(const float* depth) {
    const F f;
    alignas(64) float light[panel_nodes];
    for (std::size_t node = 0; node < panel_nodes; node += hn::Lanes(f)) {
        const VF passed = fading(hn::LoadU(f, depth + node));
        hn::Store(hn::Mul(passed, hn::LoadU(f, &node_weights[node])), f, light + node);
    }
    return ((light[0] + light[1]) + (light[2] + light[3])) +
           ((light[4] + light[5]) + (light[6] + light[7]));
}

void light_panels(std::span<const LightPanel> panels, std::span<const PanelLayer> layers,
                  PanelRoom& room, float* light) {
    for (auto* column : {&room.x, &room.y, &room.z, &room.depth}) {
        if (column->size() < panel_nodes * panels.size()) {
            column->resize(panel_nodes * panels.size());
        }
    }
    for (std::size_t p = 0; p < panels.size(); ++p) {
        place_nodes(panels[p], panel_nodes * p, room);
    }
    for (const PanelLayer& layer : layers) add_layer(layer, room);
    for (std::size_t p = 0; p < panels.size(); ++p) {
        light[p] = weighted_light(&room.depth[panel_nodes * p]);
    }
}

}  // namespace SUNFLECK_LANES

CrownKernels crown_kernels() {
    return {.cross_crown = &SUNFLECK_LANES::cross_crown,
            .follow_crown = &SUNFLECK_LANES::follow_crown,
            .light_panels = &SUNFLECK_LANES::light_panels};
}

}  // namespace HWY_NAMESPACE
}  // namespace sunfleck::rays
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace sunfleck::rays {

HWY_EXPORT(crown_kernels);

CrownKernels crown_kernels_for(std::int64_t target) {
    hwy::ChosenTarget chosen;
    chosen.Update(target);
    return HWY_DISPATCH_TABLE(crown_kernels)[chosen.GetIndex()]();
}

}  // namespace sunfleck::rays
#endif
