#include "sunfleck/scene/seasons.h"

#include "sunfleck/base/nearest_name.h"
#include "sunfleck/base/unicode_text.h"
#include "sunfleck/sun/civil_time.h"
#include "sunfleck/sun/solar_position.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sunfleck::scene {
namespace {

struct DefaultSeason {
    const char* name;
    unsigned north_month;
    unsigned day;
};

/// First days in the north; the south's lie half a year on. Common practice, no source.
constexpr std::array<DefaultSeason, 6> default_table{{{"spring", 3, 1},
                                                      {"early_summer", 5, 15},
                                                      {"midsummer", 6, 21},
                                                      {"late_summer", 8, 16},
                                                      {"autumn", 9, 16},
                                                      {"winter", 12, 1}}};

/// Seconds since 1970 of the solstice of that month: where the sun's right ascension passes 90
/// degrees in June, 270 in December.
UtcSeconds solstice(int year, unsigned month) {
    const Angle goal = Angle::degrees(month == 6 ? 90.0 : 270.0);
    const auto is_before = [goal](double seconds) {
        return sun::solar_position(UtcSeconds::since_1970(seconds), {}).right_ascension < goal;
    };
    // A solstice falls within these twelve days from year 1 to 9999.
    double early = 86400.0 * days_since_1970(make_date(year, month, 15));
    double late = early + 12.0 * 86400.0;
    while (late - early > 1.0) {
        const double middle = 0.5 * (early + late);
        (is_before(middle) ? early : late) = middle;
    }
    return UtcSeconds::since_1970(0.5 * (early + late));
}

/// The civil date at the site; by the sun's mean time where the zone is not known.
Date local_date(const Site& site, UtcSeconds instant) {
    if (const auto zone = sun::TimeZone::find(site.time_zone)) return zone->clock(instant).date;
    constexpr double seconds_per_degree = 240.0;
    const double local =
        instant.since_1970() + seconds_per_degree * site.place.longitude.in_degrees();
    return add_days(make_date(1970, 1, 1), static_cast<int>(std::floor(local / 86400.0)));
}

/// The season that begins next after `index`, in the order of the calendar.
const Season& season_after(const std::vector<Season>& seasons, std::size_t index) {
    const MonthDay first = seasons[index].first;
    const auto wait = [first](const Season& season) {
        // Later in the year comes before earlier; the same day comes last, a whole year on.
        const bool is_later = season.first > first;
        return std::pair(!is_later, season.first);
    };
    std::size_t next = index;
    for (std::size_t i = 0; i < seasons.size(); ++i) {
        if (i == index || seasons[i].first == first) continue;
        if (next == index || wait(seasons[i]) < wait(seasons[next])) next = i;
    }
    return seasons[next];
}

Problem unknown_season(std::string_view name, const std::vector<Season>& seasons) {
    std::vector<std::string> known;
    std::string list;
    for (const Season& season : seasons) {
        known.push_back(season.name);
        list += (list.empty() ? "" : ", ") + season.name;
    }
    Problem problem{.kind = ProblemKind::usage, .code = "unknown_season"};
    problem.message = "There is no season \"" + std::string(name) + "\".";
    problem.nearest = nearest_name(name, known);
    problem.mend = problem.nearest.empty() ? "The seasons are: " + list + "."
                                           : "Did you mean " + problem.nearest + "?";
    return problem;
}

}  // namespace

std::vector<Season> default_seasons(Latitude latitude) {
    std::vector<Season> seasons;
    for (const DefaultSeason& season : default_table) {
        const unsigned month =
            latitude.is_south() ? (season.north_month + 5) % 12 + 1 : season.north_month;
        seasons.push_back({season.name, std::chrono::month(month) / std::chrono::day(season.day)});
    }
    return seasons;
}

Result<DateRange> season_range(const Scene& scene, std::string_view name, int year) {
    const std::vector<Season> seasons =
        scene.seasons.empty() ? default_seasons(scene.site.place.latitude) : scene.seasons;
    const std::string wanted = nfc(name);
    const auto is_meant = [&wanted](const Season& season) {
        return edit_distance(season.name, wanted) == 0;  // capitals count as small letters
    };
    const auto found = std::find_if(seasons.begin(), seasons.end(), is_meant);
    if (found == seasons.end()) return failure(unknown_season(name, seasons));
    const Season& next = season_after(seasons, static_cast<std::size_t>(found - seasons.begin()));
    const int end_year = next.first > found->first ? year : year + 1;
    return DateRange{in_year(found->first, year), add_days(in_year(next.first, end_year), -1)};
}

Date midsummer_day(const Scene& scene, int year) {
    const unsigned month = scene.site.place.latitude.is_south() ? 12 : 6;
    return local_date(scene.site, solstice(year, month));
}

}  // namespace sunfleck::scene
