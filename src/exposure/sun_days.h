#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/exposure/sun_arc.h"
#include "sunfleck/geometry/garden.h"
#include "sunfleck/sun/civil_time.h"
#include "sunfleck/sun/place.h"

#include <vector>

namespace sunfleck::exposure {

/// What all receivers of a garden share on one day.
struct TracedDay {
    Date date;
    SunArc arc;  ///< from sunrise to sunset
    HotHours hot;
    std::vector<sun::CivilHour> hours;  ///< those that touch the arc, ascending
    std::vector<UtcSeconds> cuts;
    std::vector<geometry::PieceOptics> optics;
};

[[nodiscard]] std::vector<TracedDay> traced_days(const geometry::Garden& garden,
                                                 const sun::Place& place, const sun::TimeZone& zone,
                                                 const std::vector<Date>& dates, int thread_count);

}  // namespace sunfleck::exposure
