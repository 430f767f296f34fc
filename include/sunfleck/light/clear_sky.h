#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/units.h"
#include "sunfleck/exposure/exposure.h"
#include "sunfleck/sun/place.h"
#include "sunfleck/sun/sun_day.h"

#include <vector>

/// Light of a cloudless day on the level, as far as it comes with the sun.
namespace sunfleck::light {

/// Clear-sky global irradiance on the level, W/m2, after Haurwitz (1945, J. Meteorology 2:154;
/// 1946, 3:123): 1098 cos(z) exp(-0.059 / cos(z)), z the apparent zenith distance; 0 with the
/// sun at or below the horizon. The exponent is that of pvlib-python, by which it is checked; it
/// is also printed as 0.057, 0.2 % more at noon. It knows neither height nor haze: at a station
/// 2317 m up it was 18 % low on a clear winter day. For ranking spots of one garden that does
/// not matter.
[[nodiscard]] double haurwitz_global_w_m2(Angle altitude_apparent);

/// Photons of 400 to 700 nm per watt-hour of global light on the level, mol/Wh: 45 % of the
/// energy at 4.48 umol/J. Source: Faust & Logan (2018), HortScience 53:1250-1257.
inline constexpr double dli_mol_per_wh = 0.007265;

/// Global light on the level through one cloudless day, integrated once and then read for any
/// part of it. Samples stand 5 min apart and a part is taken from between them in proportion to
/// its length: within 0.3 Wh/m2 at each end.
class ClearDay {
  public:
    /// `sun_day` is the date's own, sun::sun_day() of the place and its zone.
    ClearDay(Date date, const sun::SunDay& sun_day, const sun::Place& place);

    [[nodiscard]] Date date() const { return date_; }
    /// Rise, noon and set of the day.
    [[nodiscard]] const sun::SunDay& sun_day() const { return sun_day_; }
    /// Minutes from sunrise to sunset; 0 in polar night.
    [[nodiscard]] double sun_up_min() const;
    /// Wh/m2 between two instants; what lies outside the sunlit part of the day counts nothing.
    [[nodiscard]] double light_wh_m2(UtcSeconds from, UtcSeconds to) const;
    /// Wh/m2 of the whole day under an open sky.
    [[nodiscard]] double open_light_wh_m2() const;

  private:
    [[nodiscard]] double light_until_wh_m2(UtcSeconds instant) const;

    Date date_;
    sun::SunDay sun_day_;
    std::vector<double> light_until_wh_m2_;  ///< from sunrise to each sample
};

/// The clear-day light that reaches a receiver with the sun, Wh/m2 over the day: global light of
/// each hour x the share of the sun that arrives in it, filtered sun counted by what is let
/// through. Within an hour the spans say when the sun came; the hour's effective minutes say how
/// much. Not counted: light of the sky alone while the sun is hidden.
/// `clear_day` must be of the same date. At most the open day's light, but for rounding.
[[nodiscard]] double sun_light_wh_m2(const exposure::DayExposure& day, const ClearDay& clear_day);

}  // namespace sunfleck::light
