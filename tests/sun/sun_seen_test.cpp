#include "sunfleck/sun/sun_seen.h"

#include "base/within.h"
#include "sun/sun_table_row.h"
#include "sunfleck/sun/solar_position.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::sun::test;
using sunfleck::test::within;

TEST_CASE("the sun is seen where the position table has it lifted by the air", "[sun][cross]") {
    // tests/data/sun_position.csv: ERFA 2.0.0 and Saemundsson's refraction; the product's sun is
    // within 0.0005 degrees of it.
    int compared = 0;
    for (const Row& row : read_table("sun_position.csv")) {
        if (!row.has("elevation_refr_saemundsson_1010hpa_10c_deg")) continue;
        const sun::SunSeen seen = sun::sun_seen(instant_of(row.text("utc")), place_of(row));
        CAPTURE(row.text("place"), row.text("utc"));
        CHECK(seen.altitude.in_degrees() ==
              within(row.number("elevation_refr_saemundsson_1010hpa_10c_deg"), 0.0005));
        const Vec3 expected = sun::direction(
            Angle::degrees(row.number("azimuth_deg")),
            Angle::degrees(row.number("elevation_refr_saemundsson_1010hpa_10c_deg")));
        CHECK(sun::angular_separation(seen.direction, expected).in_degrees() < 0.0005);
        ++compared;
    }
    CHECK(compared > 300);
}
