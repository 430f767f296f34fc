#include "sunfleck/sun/delta_t.h"

#include "base/within.h"
#include "sun/sun_table_row.h"
#include "sunfleck/base/date.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace sunfleck;
using namespace sunfleck::sun;
using namespace sunfleck::sun::test;
using sunfleck::test::within;

namespace {

double delta_t_of_year(int year) {
    return delta_t_s(UtcSeconds::since_1970(days_since_1970(make_date(year, 1, 1)) * 86400.0));
}

}  // namespace

// The same polynomials by another hand; printed to 0.01 s.
TEST_CASE("delta-T is that of the position table", "[sun][cross]") {
    for (const Row& row : read_table("sun_position.csv")) {
        CAPTURE(row.text("utc"));
        CHECK(delta_t_s(instant_of(row.text("utc"))) == within(row.number("delta_t_s"), 0.01));
    }
}

TEST_CASE("delta-T meets the observed values of its source", "[sun][published]") {
    struct Observed {
        int year;
        double seconds;
        double tolerance_s;
    };
    // NASA/TP-2006-214141, table 2 (from memory; printed to 1 s up to 1950, 0.1 s after).
    for (const Observed row :
         {Observed{1700, 9.0, 1.0}, Observed{1800, 14.0, 1.0}, Observed{1850, 7.0, 1.0},
          Observed{1900, -3.0, 1.0}, Observed{1950, 29.0, 1.0}, Observed{1970, 40.2, 0.5},
          Observed{1980, 50.5, 0.5}, Observed{1990, 56.9, 0.5}, Observed{2000, 63.8, 0.5},
          Observed{2005, 64.7, 0.5}}) {
        CAPTURE(row.year);
        CHECK(delta_t_of_year(row.year) == within(row.seconds, row.tolerance_s));
    }
}

TEST_CASE("delta-T joins its pieces without a jump that the sun would show", "[sun][property]") {
    for (const int year : {1800, 1860, 1900, 1920, 1941, 1961, 1986, 2005, 2050, 2150}) {
        CAPTURE(year);
        const double before = delta_t_s(
            UtcSeconds::since_1970(days_since_1970(make_date(year, 1, 1)) * 86400.0 - 86400.0));
        const double after = delta_t_s(
            UtcSeconds::since_1970(days_since_1970(make_date(year, 1, 1)) * 86400.0 + 86400.0));
        CHECK(std::fabs(after - before) < 1.0);  // 1 s is 0.00001 degrees of the sun
    }
}
