#include "sunfleck/scene/seasons.h"

#include "sunfleck/base/nearest_name.h"
#include "sunfleck/base/unicode_text.h"
#include "sunfleck/sun/civil_time.h"
#include "sunfleck/sun/solar_event.h"

#include <algorithm>
#include <array>

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
    std::string wanted = nfc(name);
    // "early summer" is said for early_summer.
    for (char& c : wanted) c = c == ' ' || c == '-' ? '_' : c;
    const auto is_meant = [&wanted](const Season& season) {
        return edit_distance(season.name, wanted) == 0;  // capitals count as small letters
    };
    const auto found = std::find_if(seasons.begin(), seasons.end(), is_meant);
    if (found == seasons.end()) return failure(unknown_season(name, seasons));
    const Season& next = season_after(seasons, static_cast<std::size_t>(found - seasons.begin()));
    const int end_year = next.first > found->first ? year : year + 1;
    return DateRange{in_year(found->first, year), add_days(in_year(next.first, end_year), -1)};
}

std::optional<DatedSeason> season_on(const Scene& scene, Date date) {
    for (const Season& season : scene.seasons) {
        // A season may have begun in the year before.
        for (const int year : {year_of(date), year_of(date) - 1}) {
            const auto dates = season_range(scene, season.name, year);
            if (dates && dates->from <= date && date <= dates->to) {
                return DatedSeason{season.name, *dates};
            }
        }
    }
    return std::nullopt;
}

Date midsummer_day(const Scene& scene, int year) {
    auto zone = sun::TimeZone::find(scene.site.time_zone);
    if (!zone) zone = sun::TimeZone::find("Etc/UTC");
    const unsigned month = scene.site.place.latitude.is_south() ? 12 : 6;
    if (!zone) return make_date(year, month, 21);  // a machine without a zone database
    return sun::summer_solstice_date(year, scene.site.place.latitude, *zone);
}

}  // namespace sunfleck::scene
