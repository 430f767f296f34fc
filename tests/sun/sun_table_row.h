#pragma once

#include "sun/table_file.h"
#include "sunfleck/base/date.h"
#include "sunfleck/base/units.h"
#include "sunfleck/sun/place.h"

#include <string>

namespace sunfleck::sun::test {

/// "2026-06-21T12:30:00.5Z" of a reference table.
inline UtcSeconds instant_of(const std::string& text) {
    const Date date = parse_date(text.substr(0, 10)).value();
    return UtcSeconds::since_1970(
        days_since_1970(date) * 86400.0 + std::stod(text.substr(11, 2)) * 3600.0 +
        std::stod(text.substr(14, 2)) * 60.0 + std::stod(text.substr(17)));
}

inline Place place_of(const Row& row) {
    return {.latitude = Latitude::degrees(row.number("lat_deg")),
            .longitude = Longitude::degrees(row.number("lon_deg")),
            .elevation_m = row.number("elev_m")};
}

}  // namespace sunfleck::sun::test
