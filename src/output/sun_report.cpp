#include "sunfleck/output/sun_report.h"

#include "output/sun_fields.h"
#include "sunfleck/base/require.h"
#include "sunfleck/sun/refraction.h"

namespace sunfleck::output {

SunInstant sun_instant(UtcSeconds utc, const SunPlace& place) {
    SunInstant instant{.utc = utc, .position = sun::solar_position(utc, place.place)};
    const Angle altitude = instant.position.altitude_true;
    instant.altitude_apparent = altitude + sun::refraction(altitude, place.air);
    return instant;
}

std::vector<SunDate> sun_dates(Date from, Date to, const SunPlace& place) {
    SUNFLECK_REQUIRE(from <= to, "a range of dates runs forward");
    std::vector<SunDate> dates;
    for (Date date = from; date <= to; date = add_days(date, 1)) {
        SunDate entry{.date = date, .day = sun::sun_day(date, place.place, place.zone)};
        for (const sun::CivilHour& hour : place.zone.hours(date)) {
            entry.hours.push_back(sun_instant(hour.from, place));
        }
        dates.push_back(std::move(entry));
    }
    return dates;
}

std::string_view state_name(sun::DayState state) {
    switch (state) {
        case sun::DayState::normal:
            return "normal";
        case sun::DayState::polar_day:
            return "polar_day";
        case sun::DayState::polar_night:
            return "polar_night";
        case sun::DayState::rise_only:
            return "rise_only";
        case sun::DayState::set_only:
            return "set_only";
    }
    SUNFLECK_REQUIRE(false, "a state of the day without a name");
}

namespace {

/// A named value in the making of one object or row.
class FieldList {
  public:
    void text(const char* name, std::string value) {
        fields_.push_back({name, std::move(value), std::nullopt});
    }
    void number(const char* name, double value) { fields_.push_back({name, std::nullopt, value}); }
    void instant(const char* utc_name, const char* local_name, std::optional<UtcSeconds> at,
                 const sun::TimeZone& zone) {
        fields_.push_back({utc_name, at ? std::optional(sun::utc_text(*at)) : std::nullopt, {}});
        if (local_name == nullptr) return;
        fields_.push_back(
            {local_name, at ? std::optional(sun::local_text(*at, zone)) : std::nullopt, {}});
    }
    [[nodiscard]] std::vector<SunField> take() { return std::move(fields_); }

  private:
    std::vector<SunField> fields_;
};

}  // namespace

std::vector<SunField> day_fields(const SunDate& date, const sun::TimeZone& zone) {
    const sun::SunDay& day = date.day;
    FieldList fields;
    fields.text("date", iso_date(date.date));
    fields.text("state", std::string(state_name(day.state)));
    fields.instant("sunrise_utc", "sunrise_local", day.sunrise, zone);
    fields.instant("solar_noon_utc", "solar_noon_local", day.solar_noon, zone);
    fields.instant("sunset_utc", "sunset_local", day.sunset, zone);
    fields.instant("civil_dawn_utc", "civil_dawn_local", day.civil_dawn, zone);
    fields.instant("civil_dusk_utc", "civil_dusk_local", day.civil_dusk, zone);
    fields.number("day_length_h", day.day_length_h());
    fields.number("noon_altitude_deg", day.noon_altitude.in_degrees());
    return fields.take();
}

std::vector<SunField> instant_fields(const SunInstant& instant, const sun::TimeZone& zone) {
    const sun::SolarPosition& sun = instant.position;
    FieldList fields;
    fields.instant("utc", "local", instant.utc, zone);
    fields.number("azimuth_deg", sun.azimuth.in_degrees());
    fields.number("altitude_true_deg", sun.altitude_true.in_degrees());
    fields.number("altitude_apparent_deg", instant.altitude_apparent.in_degrees());
    fields.number("hour_angle_deg", sun.hour_angle.in_degrees());
    fields.number("declination_deg", sun.declination.in_degrees());
    fields.number("right_ascension_deg", sun.right_ascension.in_degrees());
    fields.number("equation_of_time_min", sun.equation_of_time_min);
    fields.number("distance_au", sun.distance_au);
    return fields.take();
}

}  // namespace sunfleck::output
