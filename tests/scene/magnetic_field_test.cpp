#include "scene/magnetic_field.h"

#include "base/within.h"

#include <catch2/catch.hpp>

using sunfleck::test::within;

namespace sunfleck::scene {

// Declinations of the 2020s as printed on local maps, from memory, to about 1 degree; the field
// of degree 6 leaves out up to 2 more.
TEST_CASE("The compass is off by about what maps say", "[scene][published]") {
    struct Row {
        const char* place;
        double latitude_deg;
        double longitude_deg;
        double declination_deg;
    };
    for (const Row& row :
         {Row{"London", 51.5, -0.1, 1.0}, Row{"Tokyo", 35.7, 139.7, -8.0},
          Row{"New York", 40.7, -74.0, -12.0}, Row{"Melbourne", -37.8, 145.0, 12.0},
          Row{"Seattle", 47.6, -122.3, 15.0}, Row{"Cape Town", -33.9, 18.4, -25.0},
          Row{"Boulder", 40.0, -105.2, 8.0}, Row{"Auckland", -36.8, 174.8, 20.0},
          Row{"Reykjavik", 64.1, -21.9, -12.0}}) {
        CAPTURE(row.place);
        const auto found = magnetic_declination(Latitude::degrees(row.latitude_deg),
                                                Longitude::degrees(row.longitude_deg), 2025);
        REQUIRE(found);
        CHECK(found->in_degrees() == within(row.declination_deg, 3.0));
    }
}

TEST_CASE("Near the magnetic poles the compass is not asked", "[scene][property]") {
    CHECK_FALSE(magnetic_declination(Latitude::degrees(86.0), Longitude::degrees(150.0), 2025));
    CHECK_FALSE(magnetic_declination(Latitude::degrees(-64.0), Longitude::degrees(136.0), 2025));
    CHECK(magnetic_declination(Latitude::degrees(-90.0), Longitude::degrees(0.0), 2025));
}

}  // namespace sunfleck::scene
