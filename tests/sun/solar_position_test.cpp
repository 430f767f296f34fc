#include "sunfleck/sun/solar_position.h"

#include "sun/sun_table_row.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <functional>

using namespace sunfleck;
using namespace sunfleck::sun;
using namespace sunfleck::sun::test;

namespace {

using Method = std::function<SolarPosition(UtcSeconds, const Place&)>;

double separation_deg(const SolarPosition& position, const Row& row) {
    const Vec3 truth = direction(Angle::degrees(row.number("azimuth_deg")),
                                 Angle::degrees(row.number("elevation_true_deg")));
    return angular_separation(direction(position.azimuth, position.altitude_true), truth)
        .in_degrees();
}

/// Smallest turn between two angles of any size, degrees.
double turn_deg(double a, double b) {
    return std::fabs(std::remainder(a - b, 360.0));
}

struct Spread {
    double worst_deg = 0.0;
    double mean_deg = 0.0;
};

/// Separation of a method's sun from ERFA's over the whole table.
Spread spread(const Method& method) {
    const auto rows = read_table("sun_position.csv");
    Spread result;
    for (const Row& row : rows) {
        const double separation =
            separation_deg(method(instant_of(row.text("utc")), place_of(row)), row);
        result.worst_deg = std::max(result.worst_deg, separation);
        result.mean_deg += separation / static_cast<double>(rows.size());
    }
    return result;
}

}  // namespace

// sun_position.csv: ERFA 2.0.0, good to 0.0001 degrees and printed to 0.00001. The published
// accuracy of the NREL algorithm, whose terms we keep, is 0.0003 degrees (NREL/TP-560-34302).
TEST_CASE("every row of the position table is met within 0.0003 degrees", "[sun][cross]") {
    const auto rows = read_table("sun_position.csv");
    REQUIRE(rows.size() == 630);
    for (const Row& row : rows) {
        CAPTURE(row.text("place"), row.text("utc"));
        const SolarPosition sun = solar_position(instant_of(row.text("utc")), place_of(row));
        CHECK(separation_deg(sun, row) <= 0.0003);
        CHECK(turn_deg(sun.hour_angle.in_degrees(), row.number("hour_angle_deg")) <= 0.0003);
        CHECK(std::fabs(sun.declination.in_degrees() - row.number("declination_geocentric_deg")) <=
              0.0003);
        CHECK(turn_deg(sun.right_ascension.in_degrees(),
                       row.number("right_ascension_geocentric_deg")) <= 0.0003);
        // The radius terms end at 26e-8 au; the many smaller ones left out add up to some 3e-6.
        CHECK(std::fabs(sun.distance_au - row.number("distance_au")) <= 5e-6);
    }
}

TEST_CASE("the product's sun is thirty times nearer the truth than NOAA's", "[sun][cross]") {
    // The figures that NOAA's equations reach on these rows, from the table's notes.
    const Spread noaa = spread(noaa_solar_position);
    CHECK(noaa.worst_deg == Approx(0.0155).margin(0.00005));
    CHECK(noaa.mean_deg == Approx(0.0047).margin(0.00005));
    const Spread ours = spread(solar_position);
    CHECK(ours.worst_deg <= 0.0002);
    CHECK(ours.mean_deg <= 0.00006);
    CHECK(30.0 * ours.mean_deg < noaa.mean_deg);
}
