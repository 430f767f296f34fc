#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/problem.h"
#include "sunfleck/scene/scene.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sunfleck::scene {

/// The default seasons of the hemisphere, in the order of the growing year from spring.
[[nodiscard]] std::vector<Season> default_seasons(Latitude latitude);

/// A range of dates, both ends included.
struct DateRange {
    Date from;
    Date to;
    bool operator==(const DateRange&) const = default;
};

/// The season of that name whose first day lies in `year`; it ends the day before the next
/// begins, and may pass new year. An unknown name is an error that names the nearest.
[[nodiscard]] Result<DateRange> season_range(const Scene& scene, std::string_view name, int year);

/// A season with its dates.
struct DatedSeason {
    std::string name;
    DateRange dates;
};
/// The season that holds a date; nothing when the scene has none that does.
[[nodiscard]] std::optional<DatedSeason> season_on(const Scene& scene, Date date);

/// The June solstice's date in the north, December's in the south, on the site's clock (universal
/// time when the zone is not known).
[[nodiscard]] Date midsummer_day(const Scene& scene, int year);

}  // namespace sunfleck::scene
