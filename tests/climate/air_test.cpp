#include "sunfleck/climate/air.h"

#include "base/within.h"
#include "climate/fao_examples.h"
#include "sun/table_file.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::climate;
using sunfleck::test::fao_example;
using sunfleck::test::within;

// FAO Irrigation and Drainage Paper 56 (1998), worked examples; tolerances follow the digits
// printed there.

TEST_CASE("pressure and psychrometric constant of the paper's example 2", "[climate][published]") {
    const auto example = fao_example("2");
    const double pressure = air_pressure_kpa(example["inputs"]["z_m"]);
    CHECK(pressure == within(example["published_outputs"]["P_kPa"], 0.05));
    CHECK(psychrometric_constant_kpa_c(pressure) ==
          within(example["published_outputs"]["gamma_kPa_per_C"], 0.0005));
}

TEST_CASE("vapour pressure of a psychrometer, example 4", "[climate][published]") {
    const auto example = fao_example("4");
    const auto& in = example["inputs"];
    CHECK(saturation_vapour_pressure_kpa(in["t_wet_C"]) ==
          within(example["published_outputs"]["e0_wet_kPa"], 0.0015));
    CHECK(vapour_pressure_of_psychrometer_kpa(in["t_dry_C"], in["t_wet_C"], in["P_kPa"],
                                              in["a_psy"]) ==
          within(example["published_outputs"]["ea_kPa"], 0.005));
}

TEST_CASE("vapour pressure of a day's humidity, example 5", "[climate][published]") {
    const auto example = fao_example("5");
    const auto& out = example["published_outputs"];
    CHECK(saturation_vapour_pressure_kpa(18.0) == within(out["e0_tmin_kPa"], 0.005));
    CHECK(saturation_vapour_pressure_kpa(25.0) == within(out["e0_tmax_kPa"], 0.005));
    CHECK(vapour_pressure_of_humidity_kpa(
              {.min_c = 18.0, .max_c = 25.0, .least_fraction = 0.54, .most_fraction = 0.82}) ==
          within(out["ea_kPa"], 0.005));
    CHECK(vapour_pressure_of_mean_humidity_kpa(18.0, 25.0, 0.68) ==
          within(out["ea_from_rhmean_kPa"], 0.005));
}

TEST_CASE("wind brought down to 2 m, example 14", "[climate][published]") {
    const auto example = fao_example("14");
    CHECK(wind_at_2_m_m_s(3.2, 10.0) == within(example["published_outputs"]["u2_m_s"], 0.05));
    CHECK(wind_at_2_m_m_s(3.2, 2.0) == within(3.2, 0.005));
}

TEST_CASE("vapour pressures of sixty days", "[climate][published]") {
    // Generated from the paper's equations; RefET agrees within 0.0013 mm/d of the result.
    const auto rows = sun::test::read_table("fao56_daily_generated.csv");
    REQUIRE(rows.size() == 60);
    for (const auto& row : rows) {
        const double min_c = row.number("tmin_c");
        const double max_c = row.number("tmax_c");
        CAPTURE(min_c, max_c);
        CHECK(mean_saturation_vapour_pressure_kpa(min_c, max_c) ==
              within(row.number("es_kpa"), 1e-4));
        CHECK(vapour_pressure_of_humidity_kpa({.min_c = min_c,
                                               .max_c = max_c,
                                               .least_fraction = 0.01 * row.number("rhmin_pct"),
                                               .most_fraction = 0.01 * row.number("rhmax_pct")}) ==
              within(row.number("ea_kpa"), 1e-4));
    }
}

TEST_CASE("the slope is that of the pressure itself", "[climate][property]") {
    for (double air_c = -20.0; air_c <= 45.0; air_c += 5.0) {
        const double step = 1e-3;
        const double rise = (saturation_vapour_pressure_kpa(air_c + step) -
                             saturation_vapour_pressure_kpa(air_c - step)) /
                            (2.0 * step);
        CAPTURE(air_c);
        // The paper rounds 17.27 x 237.3 = 4098.17 to 4098.
        CHECK(saturation_slope_kpa_c(air_c) == within(rise, 1e-4 * rise));
    }
}

TEST_CASE("saturated air at its dew point is saturated air", "[climate][property]") {
    CHECK(vapour_pressure_of_dew_point_kpa(12.0) ==
          within(saturation_vapour_pressure_kpa(12.0), 0.0));
    CHECK(vapour_pressure_of_psychrometer_kpa(15.0, 15.0, 101.3) ==
          within(saturation_vapour_pressure_kpa(15.0), 0.0));
}
