#include "scene/findings.h"
#include "scene/magnetic_field.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/sun/civil_time.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::scene {
namespace {

constexpr double degrees_per_hour = 15.0;
/// The widest that a land's clock is off the sun is 3.1 h, in the west of China; 2.4 h elsewhere.
constexpr double odd_zone_h = 2.0;
constexpr double impossible_zone_h = 3.5;

/// A zone's clock in January and July of a year, hours before universal time.
struct ZoneClock {
    double january_h = 0.0;
    double july_h = 0.0;
    [[nodiscard]] double standard_h() const { return std::min(january_h, july_h); }
    [[nodiscard]] bool is_northern() const { return july_h > january_h; }
    [[nodiscard]] bool is_southern() const { return january_h > july_h; }
};

ZoneClock clock_of(const sun::TimeZone& zone, int year) {
    const auto offset_h = [&zone, year](unsigned month) {
        const double noon_s = 86400.0 * days_since_1970(make_date(year, month, 15)) + 43200.0;
        return zone.utc_offset_s(UtcSeconds::since_1970(noon_s)) / 3600.0;
    };
    return {offset_h(1), offset_h(7)};
}

/// Hours between the zone's clock and the sun's mean time at a longitude, across the date line.
double hours_apart(const ZoneClock& clock, double longitude_deg) {
    return std::abs(std::remainder(clock.standard_h() - longitude_deg / degrees_per_hour, 24.0));
}

/// Whether the place suits the zone: near its hours, and in the hemisphere of its summer time.
bool suits(const ZoneClock& clock, double latitude_deg, double longitude_deg) {
    if (clock.is_northern() && latitude_deg < 0.0) return false;
    if (clock.is_southern() && latitude_deg > 0.0) return false;
    return hours_apart(clock, longitude_deg) < odd_zone_h;
}

/// What was probably typed wrong.
std::string likely_mend(const ZoneClock& clock, double latitude_deg, double longitude_deg) {
    if (std::abs(longitude_deg) <= 90.0 && suits(clock, longitude_deg, latitude_deg)) {
        return "Are latitude and longitude swapped?";
    }
    if (suits(clock, latitude_deg, -longitude_deg)) {
        return "Did you mean longitude " + fixed_words(-longitude_deg, 2) +
               "? West of Greenwich is negative.";
    }
    if (suits(clock, -latitude_deg, longitude_deg)) {
        return "Did you mean latitude " + fixed_words(-latitude_deg, 2) +
               "? South of the equator is negative.";
    }
    return "Check latitude, longitude and zone.";
}

/// False when the place itself is in doubt.
bool check_zone(const Scene& scene, Findings& findings) {
    const Site& site = scene.site;
    const auto zone = sun::TimeZone::find(site.time_zone);
    // A zone that follows no land (UTC, Etc/GMT-3) is meant as it is.
    if (!zone || site.time_zone.find('/') == std::string::npos ||
        site.time_zone.starts_with("Etc/")) {
        return true;
    }
    const ZoneClock clock = clock_of(*zone, year_for(scene, std::nullopt));
    const double latitude_deg = site.place.latitude.in_degrees();
    const double longitude_deg = site.place.longitude.in_degrees();
    const std::string mend = likely_mend(clock, latitude_deg, longitude_deg);
    const double apart_h = hours_apart(clock, longitude_deg);
    if (apart_h >= odd_zone_h) {
        const Findings::Words words{.code = "zone_far_from_longitude",
                                    .pointer = "/site/longitude_deg",
                                    .message = "At longitude " + fixed_words(longitude_deg, 2) +
                                               " the sun is " + fixed_words(apart_h, 1) +
                                               " h from the clock of " + site.time_zone + ".",
                                    .mend = mend};
        apart_h > impossible_zone_h ? findings.error(words) : findings.warning(words);
        return false;
    }
    if (suits(clock, latitude_deg, longitude_deg)) return true;
    const std::string summer = clock.is_northern() ? "northern" : "southern";
    findings.warning({.code = "zone_in_other_hemisphere",
                      .pointer = "/site/latitude_deg",
                      .message = "The clocks of " + site.time_zone + " follow a " + summer +
                                 " summer, but latitude " + fixed_words(latitude_deg, 2) +
                                 " is in the other hemisphere.",
                      .mend = mend});
    return false;
}

void check_declination(const Scene& scene, Findings& findings) {
    const auto stated = scene.site.magnetic_declination;
    const auto expected = magnetic_declination(
        scene.site.place.latitude, scene.site.place.longitude, year_for(scene, std::nullopt));
    if (!stated || !expected) return;
    constexpr double model_doubt_deg = 6.0;
    const double stated_deg = stated->in_degrees();
    const double expected_deg = expected->in_degrees();
    const double off_deg = std::abs(std::remainder(stated_deg - expected_deg, 360.0));
    if (off_deg <= model_doubt_deg) return;
    const bool is_sign = std::abs(stated_deg + expected_deg) < model_doubt_deg;
    findings.warning(
        {.code = is_sign ? "declination_sign" : "declination_far_off",
         .pointer = "/site/magnetic_declination_deg",
         .message = "Here a compass points about " + fixed_words(std::abs(expected_deg), 0) + "° " +
                    (expected_deg < 0.0 ? "west" : "east") + " of true north, not " +
                    fixed_words(std::abs(stated_deg), 0) + "° " +
                    (stated_deg < 0.0 ? "west" : "east") + ".",
         .mend = is_sign ? "Did you mean " + fixed_words(-stated_deg, 1) +
                               "? East is positive, west negative."
                         : "Read it from a local map; east is positive, west negative."});
}

void check_normals(const MonthlyNormals& normals, Findings& findings) {
    const std::size_t months =
        std::min(normals.max_temperature_c.size(), normals.min_temperature_c.size());
    for (std::size_t month = 0; month < months; ++month) {
        if (normals.max_temperature_c[month] >= normals.min_temperature_c[month]) continue;
        findings.error({.code = "temperatures_swapped",
                        .pointer = "/site/normals/max_temperature_c/" + std::to_string(month),
                        .message = "In month " + std::to_string(month + 1) +
                                   " the mean maximum is below the mean minimum.",
                        .mend = "Swap the two, or correct the one."});
    }
}

}  // namespace

void check_site(const Scene& scene, Findings& findings) {
    if (check_zone(scene, findings)) check_declination(scene, findings);
    check_normals(scene.site.normals, findings);
}

void check_seasons(const Scene& scene, Findings& findings) {
    const std::vector<Season>& seasons = scene.seasons;
    int descents = 0;
    for (std::size_t i = 0; i < seasons.size(); ++i) {
        const std::string pointer = "/seasons/" + std::to_string(i);
        for (std::size_t j = 0; j < i; ++j) {
            if (seasons[i].name == seasons[j].name) {
                findings.error({.code = "season_twice",
                                .pointer = pointer + "/name",
                                .message = "There are two seasons \"" + seasons[i].name + "\".",
                                .mend = "Give each its own name."});
            }
            if (seasons[i].first == seasons[j].first) {
                findings.error({.code = "season_day_twice",
                                .pointer = pointer + "/first",
                                .message = seasons[i].name + " and " + seasons[j].name +
                                           " begin on the same day.",
                                .mend = "Move the first day of one."});
            }
        }
        // Once round the year the dates may step back: from December to March.
        const std::size_t next = (i + 1) % seasons.size();
        if (seasons[next].first >= seasons[i].first || ++descents < 2) continue;
        findings.warning({.code = "seasons_out_of_order",
                          .pointer = "/seasons/" + std::to_string(next) + "/first",
                          .message = seasons[next].name + " begins before " + seasons[i].name +
                                     ", which stands before it in the list.",
                          .mend = "Is one of the dates a slip? Each season ends where the next "
                                  "by date begins."});
    }
}

}  // namespace sunfleck::scene
