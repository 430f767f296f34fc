#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/exposure/exposure.h"
#include "sunfleck/output/canvas.h"
#include "sunfleck/sun/civil_time.h"
#include "sunfleck/sun/place.h"

#include <optional>
#include <span>

/// The day arch: clock across, the sun's altitude up. The hour hangs from it as a plumb line.
namespace sunfleck::output {

struct DayArch {
    Date date;
    sun::Place place;
    std::optional<UtcSeconds> at;  ///< where the plumb line hangs
    /// A spot's day along the arch's edge, in the three textures; empty: a plain line.
    std::span<const exposure::SunSpan> spans;
};

/// Draws it into a box; the clock's figures stand at the box's foot.
void draw_day_arch(Canvas& canvas, const SheetBox& box, const DayArch& arch,
                   const sun::TimeZone& zone, const Palette& palette = morning);

/// The clock hour of the date that stands at an x of the arch, held within its ends.
[[nodiscard]] double arch_hour_at(const SheetBox& box, const DayArch& arch,
                                  const sun::TimeZone& zone, double x);

}  // namespace sunfleck::output
