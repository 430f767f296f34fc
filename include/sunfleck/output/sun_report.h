#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/units.h"
#include "sunfleck/output/envelope.h"
#include "sunfleck/sun/civil_time.h"
#include "sunfleck/sun/place.h"
#include "sunfleck/sun/solar_position.h"
#include "sunfleck/sun/sun_day.h"

#include <string>
#include <vector>

/// The sun over one place, as the sun command answers.
namespace sunfleck::output {

/// Where and by which clock the sun is watched, through which air.
struct SunPlace {
    std::string name;  ///< of the garden; may be empty
    sun::Place place;
    sun::TimeZone zone;
    sun::Air air;
};

/// The sun at one instant.
struct SunInstant {
    UtcSeconds utc;
    sun::SolarPosition position;
    Angle altitude_apparent;  ///< lifted by refraction
};

/// One civil day: its events and the sun at the beginning of each of its clock hours.
struct SunDate {
    Date date;
    sun::SunDay day;
    std::vector<SunInstant> hours;
};

[[nodiscard]] SunInstant sun_instant(UtcSeconds utc, const SunPlace& place);
/// The dates from `from` to `to`, both included; `from` must not be later.
[[nodiscard]] std::vector<SunDate> sun_dates(Date from, Date to, const SunPlace& place);

/// One date: its events in words and a table by clock hour. Several: a table with a row each.
/// Lines fit 80 columns. `note` is a sentence under the heading, or empty.
[[nodiscard]] std::string sun_dates_text(const SunPlace& place, const std::vector<SunDate>& dates,
                                         const std::string& note);
[[nodiscard]] std::string sun_dates_json(const Envelope& envelope, const SunPlace& place,
                                         const std::vector<SunDate>& dates);
/// One row per clock hour, the day's own columns repeated in front.
[[nodiscard]] std::string sun_dates_csv(const SunPlace& place, const std::vector<SunDate>& dates);

[[nodiscard]] std::string sun_instants_text(const SunPlace& place,
                                            const std::vector<SunInstant>& instants);
[[nodiscard]] std::string sun_instants_json(const Envelope& envelope, const SunPlace& place,
                                            const std::vector<SunInstant>& instants);
/// One row per instant, in the order given; columns as the JSON's keys.
[[nodiscard]] std::string sun_instants_csv(const SunPlace& place,
                                           const std::vector<SunInstant>& instants);

}  // namespace sunfleck::output
