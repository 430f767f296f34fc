#include "sunfleck/scene/seasons.h"

#include "scene/garden_maker.h"

#include <catch2/catch.hpp>

namespace sunfleck::scene {
namespace {

DateRange range_of(const Scene& scene, const char* season, int year) {
    const auto range = season_range(scene, season, year);
    REQUIRE(range);
    return *range;
}

}  // namespace

TEST_CASE("A northern year has its six seasons", "[scene][property]") {
    const Scene scene = scene_at(51.5, -0.3, "Europe/London");
    struct Row {
        const char* name;
        Date from;
        Date to;
    };
    const std::vector<Row> rows{
        {"spring", make_date(2026, 3, 1), make_date(2026, 5, 14)},
        {"early_summer", make_date(2026, 5, 15), make_date(2026, 6, 20)},
        {"midsummer", make_date(2026, 6, 21), make_date(2026, 8, 15)},
        {"late_summer", make_date(2026, 8, 16), make_date(2026, 9, 15)},
        {"autumn", make_date(2026, 9, 16), make_date(2026, 11, 30)},
        {"winter", make_date(2026, 12, 1), make_date(2027, 2, 28)},
    };
    for (const Row& row : rows) {
        CAPTURE(row.name);
        CHECK((range_of(scene, row.name, 2026) == DateRange{row.from, row.to}));
    }
    CHECK(range_of(scene, "winter", 2027).to == make_date(2028, 2, 29));
    CHECK(range_of(scene, "Midsummer", 2026).from == make_date(2026, 6, 21));
}

TEST_CASE("A southern year has the same seasons half a year on", "[scene][property]") {
    const Scene scene = scene_at(-37.8, 145.0, "Australia/Melbourne");
    CHECK((range_of(scene, "spring", 2026) ==
           DateRange{make_date(2026, 9, 1), make_date(2026, 11, 14)}));
    CHECK((range_of(scene, "midsummer", 2026) ==
           DateRange{make_date(2026, 12, 21), make_date(2027, 2, 15)}));
    CHECK((range_of(scene, "late_summer", 2026) ==
           DateRange{make_date(2026, 2, 16), make_date(2026, 3, 15)}));
    CHECK((range_of(scene, "winter", 2026) ==
           DateRange{make_date(2026, 6, 1), make_date(2026, 8, 31)}));
    CHECK(default_seasons(Latitude::degrees(0.0)).front().first ==
          std::chrono::March / std::chrono::day(1));
}

TEST_CASE("The seasons of a year cover each day once", "[scene][property]") {
    for (const double latitude_deg : {60.0, -40.0}) {
        const Scene scene = scene_at(latitude_deg, 0.0, "UTC");
        std::vector<int> covered(366, 0);
        for (const Season& season : default_seasons(scene.site.place.latitude)) {
            for (const int year : {2026, 2027}) {
                const DateRange range = range_of(scene, season.name.c_str(), year);
                for (Date day = range.from; day <= range.to; day = add_days(day, 1)) {
                    if (year_of(day) == 2027) {
                        ++covered[static_cast<std::size_t>(day_of_year(day))];
                    }
                }
            }
        }
        for (std::size_t day = 1; day <= 365; ++day) {
            CAPTURE(latitude_deg, day);
            CHECK(covered[day] == 1);
        }
    }
}

TEST_CASE("The user's own seasons go before the hemisphere's", "[scene][property]") {
    Scene scene = scene_at(51.5, -0.3, "Europe/London");
    scene.seasons = {{"shelter", std::chrono::November / std::chrono::day(5)}};
    CHECK((range_of(scene, "shelter", 2026) ==
           DateRange{make_date(2026, 11, 5), make_date(2027, 11, 4)}));
    scene.seasons.push_back({"open", std::chrono::February / std::chrono::day(29)});
    CHECK((range_of(scene, "shelter", 2026) ==
           DateRange{make_date(2026, 11, 5), make_date(2027, 2, 27)}));
    CHECK(range_of(scene, "open", 2028).from == make_date(2028, 2, 29));
    CHECK_FALSE(season_range(scene, "midsummer", 2026));
}

TEST_CASE("Every date has the season that it lies in", "[scene][property]") {
    for (const double latitude_deg : {51.5, -37.8}) {
        Scene scene;
        scene.site.place.latitude = Latitude::degrees(latitude_deg);
        scene.seasons = default_seasons(scene.site.place.latitude);
        for (Date date = make_date(2026, 1, 1); date <= make_date(2026, 12, 31);
             date = add_days(date, 1)) {
            const auto season = season_on(scene, date);
            CAPTURE(latitude_deg, iso_date(date));
            REQUIRE(season);
            CHECK(season->dates.from <= date);
            CHECK(date <= season->dates.to);
            CHECK(season->dates ==
                  season_range(scene, season->name, year_of(season->dates.from)).value());
        }
    }
    CHECK_FALSE(season_on(Scene{}, make_date(2026, 6, 21)));
}

TEST_CASE("A season may be named as it is said", "[scene][property]") {
    const Scene scene = scene_at(51.5, -0.3, "Europe/London");
    for (const char* said : {"early summer", "Early-Summer", "EARLY_SUMMER"}) {
        CAPTURE(said);
        CHECK(range_of(scene, said, 2026) == range_of(scene, "early_summer", 2026));
    }
}

TEST_CASE("An unknown season names the nearest", "[scene][property]") {
    const Scene scene = scene_at(51.5, -0.3, "Europe/London");
    const auto near = season_range(scene, "midsumer", 2026);
    REQUIRE_FALSE(near);
    CHECK(near.error().front().nearest == "midsummer");
    CHECK(near.error().front().kind == ProblemKind::usage);
    const auto far = season_range(scene, "harvest", 2026);
    REQUIRE_FALSE(far);
    CHECK(far.error().front().nearest.empty());
    CHECK(far.error().front().mend.find("late_summer") != std::string::npos);
}

TEST_CASE("Midsummer day is the solstice's date on the site's clock", "[scene][cross]") {
    // Instants of the solstices generated with ERFA 2.0.0: 1975-06-22 00:26:25 UTC,
    // 2024-06-20 20:50:54, 2026-06-21 08:24:24, 2027-12-22 02:42:02, 2060-06-20 13:45:22.
    struct Row {
        double latitude_deg;
        double longitude_deg;
        const char* zone;
        int year;
        Date day;
    };
    const std::vector<Row> rows{
        {51.5, -0.3, "UTC", 1975, make_date(1975, 6, 22)},
        {40.7, -74.0, "America/New_York", 1975, make_date(1975, 6, 21)},
        {51.5, -0.3, "Europe/London", 2024, make_date(2024, 6, 20)},
        {35.7, 139.7, "Asia/Tokyo", 2024, make_date(2024, 6, 21)},
        {51.5, -0.3, "Europe/London", 2026, make_date(2026, 6, 21)},
        {-37.8, 145.0, "Australia/Melbourne", 2027, make_date(2027, 12, 22)},
        {-33.4, -70.7, "America/Santiago", 2027, make_date(2027, 12, 21)},
        {51.5, -0.3, "Europe/London", 2060, make_date(2060, 6, 20)},
        {-33.4, -68.0, "", 2027, make_date(2027, 12, 22)},
    };
    for (const Row& row : rows) {
        CAPTURE(row.zone, row.year);
        const Scene scene = scene_at(row.latitude_deg, row.longitude_deg, row.zone);
        CHECK(iso_date(midsummer_day(scene, row.year)) == iso_date(row.day));
    }
}

}  // namespace sunfleck::scene
