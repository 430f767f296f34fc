#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/problem.h"
#include "sunfleck/scene/scene.h"

#include <span>
#include <string_view>

/// How harm is counted. This page is the whole of the model: formula, figures, reasons.
///
/// **Unit.** One lost-growth-day equivalent: what a tree would have grown on one good day of the
/// season. A part of harm is worked out for every computed day of a period, averaged, and
/// multiplied by the period's days; jump and moving are paid once. 0 is a pot with nothing to
/// wish for; a day's hot sun may cost more than a day, because scorched leaves must be replaced.
///
/// **Letters.** H heat, R ripening, A activity, S softness of the day (DayFactors); V soil, litres;
/// D drought tolerance and T shade tolerance, 0 to 5; clip(x, a, b) x kept between a and b.
///
/// **hot_sun** a day = H k (x + x^2 / 5) / 2, x = max(0, dose - bears), hours.
///   dose   effective sun in the hot hours (solar 11:00 to 16:00): full sun plus filtered sun x
///          what is let through. 5 h under an open sky.
///   bears  max(0, sun_max_h - 5 + clip(2 log10(V / 0.5), -1.5, 4) + 0.4 (D - 2.5) + risk), risk
///          +0.5 low, 0 medium, -0.5 high. `sun_max_h` is the most sun a small pot takes on a hot
///          day before it wants a midday filter; five of its hours are the kinder ones before
///          the hot hours begin. Growers' rule: large pots bear 2 to 4 hours more; here 2 h for
///          each tenfold soil, counted from half a litre (a shohin pot).
///   k      0.2 (1.5 - 0.2 D) x (0.7 low, 1 medium, 1.4 high risk): a middling tree that bears
///          none of five hot hours loses just one growth day each day. The square says that the
///          last hour too many costs more than the first.
///
/// **light_deficit** a day = A n [(1 - R) max(0, 1 - E / E_want) + R max(0, 1 - E / E_open)].
///   E       the clear-day light that comes with the sun, Wh/m2 (light::sun_light_wh_m2): hours
///           are blunt, six from 6 to 12 and six from 10 to 16 differ by half.
///   E_open  the same under an open sky; E_want = E_open x min(1, sun_min_h / hours from sunrise
///           to sunset): the energy of that many mean sun hours of the date.
///   n       1.2 - 0.16 T: shade costs a shade-tolerant kind a third of what it costs a hungry one.
///   In growth the want counts; as heat eases the wish turns to "as much unfiltered sun as the
///   garden offers", for buds, wood and colour (R goes from 0.15 to 1).
///
/// **pot_wall** a day = H 0.05 max(0, w - 2) c / (1 + V / 3).
///   w  hours of effective sun on the pot's west side, which the sun reaches from noon on. Morning
///      sun strikes a pot that is still cool, and the high sun of noon only grazes its side.
///      Roots suffer from about 38 C for some hours; a dark pot in late sun gets there.
///   c  0.3 pale, 0.6 medium, 1 dark; a pot of 3 L warms half as fast as the smallest.
///
/// **jump**, once = 6 S risk max(0, E/E_open there - E/E_open here), over the same dates; risk 0.7,
///   1, 1.4. S of the period's first fortnight. Counted only upwards and only for a pot that
///   stands somewhere: bleaching comes from the step into more light. Both ends are taken on the
///   dates of the period, because a change that the season brings comes to a pot that stays, too.
///   It obeys jump(a, c) <= jump(a, b) + jump(b, c), so that a plan carried out is a plan kept.
///
/// **moving**, once = 2 lift + 0.1 carry a kilogram (at least 0.001). No pot moves for less: 15 min
///   more or less of hot sun, which is what a tape-measure survey is good for, make 2 to 3 growth
///   days over a season, and a move must be worth more than the survey's error.
///
/// **drying** is 0 as long as no water balance is computed.
///
/// **A passing state** (repotted, defoliated, wired, sick) wants bright shade until its date: bears
///   no hot sun, k as of a tree with D = 0 and high risk, H at least 0.6, want 1.5 mean sun hours,
///   no ripening, n = 0.6.
///
/// **Weights.** Each part is multiplied by the scene's `harm_weights` of that name: hot_sun,
/// light_deficit, pot_wall, jump, lift, carry; 1 as here, 2 counts double, 0 leaves it out.
///
/// **Where it comes from.** The directions are growers' common practice and published advice; no
/// publication ties growth lost to hours of sun in pots, so every figure above is a judgement:
/// right in order and sign, not to the digit. Not seen: light of the sky alone (a bright open
/// shade and a dark corner count the same without sun), wind, reflected heat, rain.
namespace sunfleck::placement {

struct HarmWeights {
    double hot_sun = 1.0;
    double light_deficit = 1.0;
    double pot_wall = 1.0;
    double jump = 1.0;
    double lift = 1.0;
    double carry = 1.0;
    bool operator==(const HarmWeights&) const = default;
};

/// The names a scene may give a weight to, in the order of HarmWeights.
[[nodiscard]] std::span<const std::string_view> harm_weight_names();
/// The scene's weights. An unknown name is an error that names the nearest, a weight below 0,
/// above 1000 or not finite is one too.
[[nodiscard]] Result<HarmWeights> harm_weights_of(const scene::Scene& scene);

/// What the calendar makes of harm, each 0 to 1.
struct DayFactors {
    double heat = 0.0;
    double ripening = 0.0;
    double activity = 0.0;
    double softness = 0.0;
};

/// Heat follows the site's normal daily maximum where it is given (0 at 18 C, 1 at 25 C, between
/// the middles of the months linear), else the calendar: 1 within 35 days of 20 July (south: 18
/// January), 0 from 75 days on; all year 1 between the tropics. Ripening: 0.15, and 1 - heat as
/// far as that is more and summer's height is past (full from 56 days after it, gone by winter).
/// Activity: 0.2 in winter, 1 from mid April to September. Softness: 1 from late April to June,
/// 0.4 in mid August, 0.2 in mid September, 0.1 in winter. Months of the north; the south's lie
/// half a year off; between the tropics activity is 1 and softness 0.6 all year.
[[nodiscard]] DayFactors day_factors(const scene::Site& site, Date date);

/// What a spot gives on one day, seen by one pot.
struct SpotDay {
    double hot_effective_h = 0.0;  ///< crown: effective sun in the hot hours
    double light_wh_m2 = 0.0;      ///< crown: clear-day light that comes with the sun
    double open_light_wh_m2 = 0.0;
    double sun_up_h = 0.0;
    double wall_effective_h = 0.0;  ///< pot wall: w above
};

/// What a pot bears and wants on a date, from its kind, its soil and its state.
struct PotNature {
    double bears_hot_h = 0.0;
    double hot_sun_per_h = 0.0;  ///< k, growth days a day for an hour
    double least_heat = 0.0;
    double wanted_sun_h = 0.0;
    double light_need = 0.0;
    bool ripens = true;
    double wall_per_h = 0.0;
    double jump_days =
        0.0;  ///< growth days of a jump from no light to all, leaves at their softest
};
[[nodiscard]] PotNature nature_of(const scene::Pot& pot, Date date);

/// Harm of one day, in growth days; all >= 0 and finite.
[[nodiscard]] double hot_sun_harm(const PotNature& nature, const DayFactors& factors,
                                  const SpotDay& day);
[[nodiscard]] double light_deficit_harm(const PotNature& nature, const DayFactors& factors,
                                        const SpotDay& day);
[[nodiscard]] double pot_wall_harm(const PotNature& nature, const DayFactors& factors,
                                   const SpotDay& day);
/// Harm of a step in light; shares of the open sky's light, 0 to 1.
[[nodiscard]] double jump_harm(const PotNature& nature, double softness, double share_here,
                               double share_there);
/// What one move of the pot costs, growth days.
[[nodiscard]] double move_cost(const scene::Pot& pot, const HarmWeights& weights);

}  // namespace sunfleck::placement
