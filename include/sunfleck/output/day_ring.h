#pragma once

#include "sunfleck/exposure/exposure.h"
#include "sunfleck/output/canvas.h"
#include "sunfleck/sun/civil_time.h"
#include "sunfleck/sun/sun_day.h"

#include <span>
#include <vector>

/// The day ring: a clock of 24 hours at a spot, its band whole in full sun, cut in bars in filtered
/// sun, thin in shade and open at night.
namespace sunfleck::output {

/// Where an instant stands on the ring, clockwise from the top: 15 degrees an hour from solar
/// noon, the other way round south of the equator. So noon is up, and east to the left in the north
/// and to the right in the south, on every date and at every latitude.
[[nodiscard]] Angle ring_angle(UtcSeconds instant, UtcSeconds solar_noon, Latitude latitude);

struct RingStretch {
    exposure::SunState state = exposure::SunState::shade;
    Angle from;  ///< at its earlier end
    Angle to;
};

struct RingHour {
    int hour = 0;  ///< as the clock shows
    Angle angle;
};

struct DayRing {
    std::vector<RingStretch> stretches;  ///< by time, from sunrise to sunset
    Angle hot_from;
    Angle hot_to;
    std::vector<RingHour> hours;  ///< full clock hours, for large rings
    double full_min = 0.0;
    double filtered_min = 0.0;
    bool is_south = false;
};

[[nodiscard]] DayRing day_ring(const exposure::DayExposure& day, const sun::SunDay& sun_day,
                               Latitude latitude, std::span<const sun::CivilHour> hours);

/// Share of the diameter that the band takes: the smaller the ring, the wider.
[[nodiscard]] double band_width(double diameter);
/// From bar to bar along the middle of the band; 56 % of it is dark.
[[nodiscard]] double bar_pitch(double diameter);
inline constexpr double bar_share = 0.56;

/// From these diameters on the ring carries its hours, its marks and its clock.
inline constexpr double ring_with_figure = 24.0;
inline constexpr double ring_with_marks = 40.0;
inline constexpr double ring_with_clock = 96.0;
/// How far marks and clock reach beyond the band.
[[nodiscard]] double ring_margin(double diameter);

void draw_day_ring(Canvas& canvas, SheetPoint centre, double diameter, const DayRing& ring,
                   const Palette& palette = morning);

}  // namespace sunfleck::output
