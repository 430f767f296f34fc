// Minutes of sun beside walls, under a net and behind a ball for five places and three dates:
// tests/data/sun_minutes_scenes.csv (.json tells the scenes and the tolerance), computed with
// ERFA 2.0.0 and plane geometry, 5 s sampling, without refraction.
#include "base/within.h"
#include "exposure/traced_spot.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

using namespace sunfleck;
using namespace sunfleck::test;
using exposure::SunState;

namespace {

struct Row {
    std::string place;
    double latitude_deg = 0.0;
    double longitude_deg = 0.0;
    Date date{};
    int scene = 0;
    double up_min = 0.0;
    double in_object_min = 0.0;
    double clear_min = 0.0;
    double sensitivity_min = 0.0;
};

std::vector<Row> published_rows() {
    std::ifstream file(SUNFLECK_TEST_DATA "/sun_minutes_scenes.csv");
    std::vector<Row> rows;
    std::string line;
    std::getline(file, line);
    while (std::getline(file, line)) {
        std::istringstream cells(line);
        std::vector<std::string> cell;
        for (std::string one; std::getline(cells, one, ',');) cell.push_back(one);
        REQUIRE(cell.size() == 10);
        rows.push_back({.place = cell[0],
                        .latitude_deg = std::stod(cell[1]),
                        .longitude_deg = std::stod(cell[2]),
                        .date = *parse_date(cell[3]),
                        .scene = std::stoi(cell[4]),
                        .up_min = std::stod(cell[5]),
                        .in_object_min = std::stod(cell[6]),
                        .clear_min = std::stod(cell[7]),
                        .sensitivity_min = std::stod(cell[9])});
    }
    return rows;
}

// A wall as a thin box: `bearing_deg` and distance of its face, its ends to left and right as one
// looks at it.
geometry::Piece wall(double bearing_deg, double distance_m, double height_m, double left_m,
                     double right_m) {
    const double thin = 1e-4;
    return towards(solid_box({left_m, distance_m, -10}, {right_m, distance_m + thin, height_m}),
                   Angle::degrees(bearing_deg));
}

// The scenes of sun_minutes_scenes.json; what the light passes dims by half.
HandGarden published_garden(int scene) {
    switch (scene) {
        case 1:
            return HandGarden({wall(180, 3, 2, -1e5, 1e5)});
        case 2:
            return HandGarden({wall(240, 1.5, 1.8, -2, 3)});
        case 3:
            return HandGarden({level_cloth({-1.5, -1}, {1.5, 1}, 1.2, 0.5)});
        case 4:
            return HandGarden({ball_crown({1, -3, 3}, 1.5, 0.3)});
        default:
            return HandGarden({});
    }
}

// The 24 hours from local mean midnight.
exposure::SunArc whole_day(const Row& row, const exposure::SunModel& model) {
    const UtcSeconds midnight =
        UtcSeconds::since_1970(days_since_1970(row.date) * 86400.0 - row.longitude_deg * 240.0);
    return {midnight, midnight.plus_seconds(86400.0), place_at(row.latitude_deg, row.longitude_deg),
            model};
}

}  // namespace

TEST_CASE("minutes of the point sun agree with the published scenes", "[exposure][published]") {
    const std::vector<Row> rows = published_rows();
    REQUIRE(rows.size() == 75);
    for (const Row& row : rows) {
        CAPTURE(row.place, iso_date(row.date), row.scene);
        const auto arc = whole_day(row, {.is_refracted = false, .has_disk = false});
        const auto day = published_garden(row.scene).day(arc, {0, 0, 0});
        // "point-sun engine: 0.2 + sensitivity column"
        const double tolerance_min = 0.2 + row.sensitivity_min;
        const double full_min = span_minutes(day.spans, SunState::full);
        const double filtered_min = span_minutes(day.spans, SunState::filtered);
        CHECK(full_min == within(row.clear_min, tolerance_min));
        if (row.scene >= 3) {
            CHECK(filtered_min == within(row.in_object_min, tolerance_min));
            CHECK(full_min + filtered_min == within(row.up_min, tolerance_min));
        }
    }
}

TEST_CASE("effective minutes of the disk agree with the published scenes",
          "[exposure][published]") {
    int along_the_wall = 0;
    for (const Row& row : published_rows()) {
        if (row.scene >= 3) continue;  // opaque scenes: effective is full
        // Here the sun climbs along the endless wall's edge for ten minutes, its middle just
        // behind it, part of its disk before it. The case below sums that disk apart.
        if (row.scene == 1 && row.place == "Helsinki" && row.clear_min <= 0.0 &&
            row.date == make_date(2026, 9, 23)) {
            ++along_the_wall;
            continue;
        }
        CAPTURE(row.place, iso_date(row.date), row.scene);
        const auto arc = whole_day(row, {.is_refracted = false});
        const auto day = published_garden(row.scene).exposure(arc, {0, 0, 0});
        // "penumbral (disk) engine: compare effective minutes, 1.0 + sensitivity"
        CHECK(day.total.effective_min == within(row.clear_min, 1.0 + row.sensitivity_min));
    }
    CHECK(along_the_wall == 1);
}

TEST_CASE("a sun that climbs along an endless wall shows part of its disk", "[exposure][cross]") {
    // Helsinki, 23 September: the disk summed by a plain grid every 10 s against the wall's own
    // plane geometry (3 m away, 2 m high, to the south).
    const Row row{.latitude_deg = 60.1699,
                  .longitude_deg = 24.9384,
                  .date = make_date(2026, 9, 23),
                  .scene = 1};
    const auto arc = whole_day(row, {.is_refracted = false});
    const double reach = tan(arc.disk_radius());
    double lit_min = 0.0;
    for (double s = 5.0; s < 86400.0; s += 10.0) {
        const Vec3 d = arc.direction(arc.from().plus_seconds(s));
        if (d.z < -0.01 || d.y < -0.05) continue;  // night, or well behind the wall
        const Vec3 side = normalised(cross({0, 0, 1}, d));
        const Vec3 over = cross(d, side);
        int lit = 0;
        int all = 0;
        for (int i = -50; i <= 50; ++i) {
            for (int j = -50; j <= 50; ++j) {
                if (i * i + j * j > 2500) continue;
                ++all;
                const Vec3 p = d + (reach * i / 50.0) * side + (reach * j / 50.0) * over;
                if (p.z > 0.0 && (p.y > 0.0 || p.z > -p.y * 2.0 / 3.0)) ++lit;
            }
        }
        lit_min += 10.0 / 60.0 * lit / all;
    }
    const auto day = published_garden(1).exposure(arc, {0, 0, 0});
    CHECK(lit_min > 1.0);
    CHECK(day.total.effective_min == within(lit_min, 0.1));
}
