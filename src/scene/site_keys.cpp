#include "scene/scene_keys.h"
#include "sunfleck/sun/civil_time.h"

#include <algorithm>

namespace sunfleck::scene {

namespace {

constexpr std::size_t months = 12;

ObjectKeys<MonthlyNormals> make_normals_keys() {
    ObjectKeys<MonthlyNormals> keys(
        "normals", "Means of the months January to December, twelve numbers each.");
    const auto month_key = [&](const char* name, const char* title, Range range, auto place) {
        keys.numbers({name, title, "One number a month."}, range, {months, months}, place);
    };
    using Normals = MonthlyNormals;
    month_key("max_temperature_c", "mean daily maximum", {-60, 60}, &Normals::max_temperature_c);
    month_key("min_temperature_c", "mean daily minimum", {-70, 50}, &Normals::min_temperature_c);
    month_key("humidity_percent", "mean relative humidity", {0, 100},
              &Normals::relative_humidity_percent);
    month_key("dew_point_c", "mean dew point", {-70, 40}, &Normals::dew_point_c);
    month_key("wind_m_s", "mean wind", {0, 40}, &Normals::wind_m_s);
    month_key("sunshine_h", "sunshine in the month", {0, 744}, &Normals::sunshine_h);
    month_key("radiation_mj_m2", "mean daily radiation", {0, 50}, &Normals::radiation_mj_m2);
    month_key("rain_mm", "rain in the month", {0, 5000}, &Normals::rain_mm);
    month_key("rain_days", "days with rain in the month", {0, 31}, &Normals::rain_days);
    keys.note();
    return keys;
}

void check_zone(const Value& value, const Reading& reading) {
    const auto zone = sun::TimeZone::find(value->text);
    if (zone) return;
    for (const Problem& problem : zone.error()) {
        reading.complain(value, problem.code, problem.message, problem.mend);
        reading.problems->back().nearest = problem.nearest;
    }
}

template <typename Part>
auto of_place(Part part) {
    return [part](auto& site) -> auto& {
        return site.place.*part;
    };
}

void add_place(ObjectKeys<Site>& keys) {
    keys.text({"name", "name of the garden", "As pictures and paper call it."}, TextForm::free,
              &Site::name);
    keys.number({"latitude_deg", "latitude", "North positive.", Need::required}, {-90, 90},
                of_place(&sun::Place::latitude));
    keys.number({"longitude_deg", "longitude", "East positive.", Need::required}, {-180, 180},
                of_place(&sun::Place::longitude));
    keys.number({"elevation_m", "elevation", "Above the sea."}, {-450, 9000},
                of_place(&sun::Place::elevation_m));
    keys.key(
        {"time_zone", "time zone", "Of the IANA database, such as Europe/London.", Need::required},
        {TextShape{TextForm::zone}}, [](Site& site, const Value& value, const Reading& reading) {
            site.time_zone = value->text;
            check_zone(value, reading);
        });
    keys.number({"year", "year", "That answers are for, unless another is asked."}, {1950, 2100},
                &Site::year);
}

void add_bearings(ObjectKeys<Site>& keys) {
    keys.number({"plan_up_bearing_deg", "bearing of the plan's up",
                 "The true bearing of the plan's y axis; 0 when the plan's up is north."},
                {0, 360}, &Site::plan_up_bearing);
    keys.number({"magnetic_declination_deg", "magnetic declination",
                 "True bearing of the compass needle: east positive. Bearings by the compass need "
                 "it."},
                {-180, 180}, &Site::magnetic_declination);
}

void add_surroundings(ObjectKeys<Site>& keys) {
    keys.number({"albedo_fraction", "albedo", "Share of light that the ground sends back."}, {0, 1},
                &Site::albedo);
    keys.tuples(
        {"horizon_deg", "horizon",
         "The far horizon: true azimuth and altitude of its points; straight between them."},
        {{"azimuth", {0, 360}}, {"altitude", {-10, 89}}}, {1, 1000},
        [](Site& site, const std::vector<double>& numbers) {
            site.horizon.push_back({Angle::degrees(numbers[0]), Angle::degrees(numbers[1])});
        });
}

ObjectKeys<Site> make_site_keys() {
    static const ObjectKeys<MonthlyNormals> normals = make_normals_keys();
    ObjectKeys<Site> keys("site", "Where the garden is, and how its plan is laid.");
    add_place(keys);
    add_bearings(keys);
    add_surroundings(keys);
    keys.object({"normals", "normals", "The climate's means."}, normals, &Site::normals);
    keys.note();
    return keys;
}

}  // namespace

const ObjectKeys<Site>& site_keys() {
    static const ObjectKeys<Site> keys = make_site_keys();
    return keys;
}

}  // namespace sunfleck::scene
