#include "sunfleck/scene/scene.h"

#include <catch2/catch.hpp>

#include <vector>

namespace sunfleck::scene {

TEST_CASE("A stretch of the year holds both its ends, over new year and leap days too",
          "[scene][property]") {
    struct Row {
        const char* from;
        const char* to;
        std::vector<const char*> inside;
        std::vector<const char*> outside;
    };
    const std::vector<Row> rows = {
        {"05-20", "09-05", {"2026-05-20", "2026-09-05"}, {"2026-05-19", "2026-09-06"}},
        {"11-10",
         "02-20",
         {"2026-11-10", "2026-12-31", "2026-01-01", "2026-02-20"},
         {"2026-02-21", "2026-11-09"}},
        // 29 February counts as the 28th in common years.
        {"02-01", "02-29", {"2026-02-28", "2028-02-29"}, {"2026-03-01"}},
        {"02-29", "02-29", {"2026-02-28"}, {"2028-02-28"}},
    };
    for (const Row& row : rows) {
        const YearSpan stretch{*parse_month_day(row.from), *parse_month_day(row.to)};
        for (const char* date : row.inside) {
            CAPTURE(row.from, row.to, date);
            CHECK(stretch.contains(*parse_date(date)));
        }
        for (const char* date : row.outside) {
            CAPTURE(row.from, row.to, date);
            CHECK_FALSE(stretch.contains(*parse_date(date)));
        }
    }
}

TEST_CASE("The year asked for goes before the scene's, and that before the default",
          "[scene][property]") {
    Scene scene;
    CHECK(year_for(scene, std::nullopt) == 2026);
    scene.site.year = 2031;
    CHECK(year_for(scene, std::nullopt) == 2031);
    CHECK(year_for(scene, 1999) == 1999);
}

}  // namespace sunfleck::scene
