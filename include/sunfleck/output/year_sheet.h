#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/exposure/exposure.h"
#include "sunfleck/output/canvas.h"
#include "sunfleck/scene/scene.h"
#include "sunfleck/sun/civil_time.h"
#include "sunfleck/sun/place.h"

#include <span>
#include <string>
#include <vector>

/// The year sheet: day of the year across, clock hour down, the three suns by texture. Steps of
/// summer time stay steps.
namespace sunfleck::output {

/// A stretch of one day by its clock, hours after midnight.
struct ClockRun {
    double from_h = 0.0;
    double to_h = 0.0;
    bool operator==(const ClockRun&) const = default;
};

/// What one column shows. Runs are ascending and lie in [0, 24].
struct YearColumn {
    Date date;
    int days = 1;              ///< for which it stands
    std::vector<ClockRun> up;  ///< the sun above the flat horizon
    std::vector<ClockRun> full;
    std::vector<ClockRun> filtered;
    double noon_h = 12.0;
    double hot_from_h = 11.0;
    double hot_to_h = 16.0;
    int utc_offset_s = 0;  ///< at noon
    bool has_net = false;  ///< a net with dates is up
};

/// The columns of a year's days. What of a day's sun lies beyond midnight by the clock goes to
/// the neighbouring column.
[[nodiscard]] std::vector<YearColumn> year_columns(std::span<const exposure::DayExposure> days,
                                                   const sun::Place& place,
                                                   const sun::TimeZone& zone);

/// Notes on which columns a net that has dates is up.
void mark_nets(const scene::Scene& scene, std::span<YearColumn> columns);

/// The hours that show all daylight and one hour more at both ends, whole, within [0, 24].
[[nodiscard]] ClockRun shown_hours(std::span<const YearColumn> columns);

/// Draws the sheet into a box, figures left and below included.
void draw_year_sheet(Canvas& canvas, const SheetBox& box, std::span<const YearColumn> columns,
                     const Palette& palette = morning);

/// The point of the year that is looked at.
struct YearPoint {
    Date date;
    double hour = 12.0;  ///< by the clock
};
/// The sheet low and wide, without figures but four dates under it, and with a flag at the point.
void draw_year_strip(Canvas& canvas, const SheetBox& box, std::span<const YearColumn> columns,
                     const YearPoint& point, const Palette& palette = morning);
/// The point at a place of the strip, held within it.
[[nodiscard]] YearPoint year_point_at(const SheetBox& box, std::span<const YearColumn> columns,
                                      SheetPoint at);

}  // namespace sunfleck::output
