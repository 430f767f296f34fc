// What the kernels share: the sun at one or two samples, a lane for each. Included once for each
// instruction set, after the kernel's file has defined SUNFLECK_MOST_LANES (how many floats it
// wants at once, if there are so many) and SUNFLECK_LANES (a namespace for that width).
#if defined(SUNFLECK_RAYS_SUN_LANES_INL_H) == defined(HWY_TARGET_TOGGLE)
#ifdef SUNFLECK_RAYS_SUN_LANES_INL_H
#undef SUNFLECK_RAYS_SUN_LANES_INL_H
#else
#define SUNFLECK_RAYS_SUN_LANES_INL_H
#endif

#include "rays/light_kernels.h"

#include <hwy/highway.h>

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

HWY_BEFORE_NAMESPACE();
namespace sunfleck::rays {
namespace HWY_NAMESPACE {
namespace SUNFLECK_LANES {

namespace hn = hwy::HWY_NAMESPACE;

using F = hn::CappedTag<float, SUNFLECK_MOST_LANES>;
using I = hn::Rebind<std::int32_t, F>;
using VF = hn::Vec<F>;
using VI = hn::Vec<I>;
using MF = hn::Mask<F>;

constexpr float pi_f = 3.14159265F;
constexpr float beyond = 1e9F;
// Of the polynomial for acos, and of atan's, radians, and some.
constexpr float arc_error = 3e-4F;
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

// Rows of three floats, one from each of 4, 8 or 16 places, as x, y, z: cheaper than gathering
// coordinate by coordinate. Row `first` + 4 b of `places` goes into block b.
#if HWY_TARGET == HWY_SCALAR
HWY_INLINE Point rows_at(const float* directions, const std::int32_t* places) {
    const F f;
    const float* at = directions + row_floats * static_cast<std::ptrdiff_t>(places[0]);
    return {hn::Set(f, at[0]), hn::Set(f, at[1]), hn::Set(f, at[2])};
}
#else
template <typename Tag>
HWY_INLINE hn::Vec<Tag> blocks_at(Tag f, const float* directions, const std::int32_t* places) {
    const hn::FixedTag<float, 4> row;
    const auto at = [&](std::size_t block) {
        return hn::LoadU(row,
                         directions + row_floats * static_cast<std::ptrdiff_t>(places[4 * block]));
    };
    if constexpr (hn::MaxLanes(f) == 16) {
        const hn::Half<Tag> pair;
        return hn::Combine(f, hn::Combine(pair, at(3), at(2)), hn::Combine(pair, at(1), at(0)));
    } else if constexpr (hn::MaxLanes(f) == 8) {
        return hn::Combine(f, at(1), at(0));
    } else {
        return at(0);
    }
}

HWY_INLINE Point rows_at(const float* directions, const std::int32_t* places) {
    const F f;
    const hn::Repartition<double, F> wide;
    const VF a = blocks_at(f, directions, places);
    const VF b = blocks_at(f, directions, places + 1);
    const VF c = blocks_at(f, directions, places + 2);
    const VF d = blocks_at(f, directions, places + 3);
    const auto ab_low = hn::BitCast(wide, hn::InterleaveLower(f, a, b));
    const auto ab_high = hn::BitCast(wide, hn::InterleaveUpper(f, a, b));
    const auto cd_low = hn::BitCast(wide, hn::InterleaveLower(f, c, d));
    const auto cd_high = hn::BitCast(wide, hn::InterleaveUpper(f, c, d));
    return {hn::BitCast(f, hn::InterleaveLower(wide, ab_low, cd_low)),
            hn::BitCast(f, hn::InterleaveUpper(wide, ab_low, cd_low)),
            hn::BitCast(f, hn::InterleaveLower(wide, ab_high, cd_high))};
}
#endif

// The sun at a sample and at the next, a lane for each day.
struct Step {
    Point from;
    Point to;
};

HWY_INLINE Step step_at(const float* directions, VI sample) {
    alignas(64) std::int32_t samples[days_at_once];
    hn::Store(sample, I(), samples);
    return {rows_at(directions, samples), rows_at(directions + row_floats, samples)};
}

HWY_INLINE VF product(VF nx, VF ny, VF nz, Point d) {
    return hn::Add(hn::Add(hn::Mul(nx, d.x), hn::Mul(ny, d.y)), hn::Mul(nz, d.z));
}

// The sun at samples one after another.
HWY_INLINE Point suns_from(const float* directions) {
    Point sun;
    hn::LoadInterleaved3(F(), directions, sun.x, sun.y, sun.z);
    return sun;
}

// The sample at which the sun is at an hour angle, held within the day.
HWY_INLINE VF sample_at(VF hour_angle, VF day_start, VF last_sample) {
    const F f;
    const VF per_minute = hn::Set(f, 1.0F / hour_angle_per_minute);
    const VF at = hn::Mul(hn::Sub(hour_angle, day_start), per_minute);
    return hn::Min(hn::Max(at, hn::Zero(f)), last_sample);
}

// Whole numbers of days one after another into a column.
HWY_INLINE void store_days(VF value, std::size_t day, std::vector<std::int32_t>& column) {
    const I i;
    hn::StoreU(hn::ConvertTo(i, value), i, &column[day]);
}

// Ticks of steps one after another.
HWY_INLINE void store_ticks(VF tick, std::uint8_t* to) {
    const hn::Rebind<std::uint8_t, F> bytes;
    hn::StoreU(hn::DemoteTo(bytes, hn::ConvertTo(I(), tick)), bytes, to);
}

// Goes through the days of the groups, so many at a time as there are lanes; `cross` gives whether
// it found anything on them.
template <typename Cross>
HWY_INLINE void cross_groups(std::span<const std::uint16_t> groups, ConeCrossings& out,
                             const Cross& cross) {
    const std::size_t lanes = hn::Lanes(F());
    for (const std::uint16_t group : groups) {
        const std::size_t first = std::size_t{group} * days_at_once;
        bool any = false;
        for (std::size_t day = first; day < first + days_at_once; day += lanes) {
            any = cross(day) || any;
        }
        out.any[group] = any ? 1 : 0;
    }
}

}  // namespace SUNFLECK_LANES
}  // namespace HWY_NAMESPACE
}  // namespace sunfleck::rays
HWY_AFTER_NAMESPACE();

#endif  // include guard per target
