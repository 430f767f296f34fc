#include "sunfleck/drying/reference_et.h"

#include "base/within.h"
#include "climate/fao_examples.h"
#include "sun/table_file.h"
#include "sunfleck/climate/air.h"
#include "sunfleck/climate/daily_radiation.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::drying;
using sunfleck::test::fao_example;
using sunfleck::test::within;

TEST_CASE("a day in Brussels, example 18", "[drying][published]") {
    // FAO Irrigation and Drainage Paper 56 (1998), example 18: Uccle, 6 July.
    const auto out = fao_example("18")["published_outputs"];
    const Latitude latitude = Latitude::degrees(50.8);
    const double pressure = climate::air_pressure_kpa(100.0);
    const double wind = climate::wind_at_2_m_m_s(10.0 / 3.6, 10.0);
    const double saturated = climate::mean_saturation_vapour_pressure_kpa(12.3, 21.5);
    const double actual = climate::vapour_pressure_of_humidity_kpa(
        {.min_c = 12.3, .max_c = 21.5, .least_fraction = 0.63, .most_fraction = 0.84});
    const double top = climate::extraterrestrial_mj_m2(latitude, 187);
    const double possible = climate::daylight_h(latitude, 187);
    const double global = climate::global_from_sunshine_mj_m2(9.25, possible, top);
    const double clear = climate::clear_sky_mj_m2(100.0, top);
    const double longwave = climate::net_longwave_mj_m2(
        {.min_c = 12.3, .max_c = 21.5, .vapour_pressure_kpa = actual, .clearness = global / clear});
    const double net = climate::net_shortwave_mj_m2(global) - longwave;
    CHECK(wind == within(out["u2_m_s"], 0.001));
    CHECK(pressure == within(out["P_kPa"], 0.05));
    CHECK(saturated == within(out["es"], 0.001));
    CHECK(actual == within(out["ea"], 0.001));
    CHECK(top == within(out["Ra"], 0.01));
    CHECK(possible == within(out["N_h"], 0.05));
    CHECK(global == within(out["Rs"], 0.01));
    CHECK(clear == within(out["Rso"], 0.05));
    CHECK(longwave == within(out["Rnl"], 0.01));
    CHECK(net == within(out["Rn"], 0.01));
    // The paper takes the slope at the mean of the extremes, 16.9 degrees.
    const double et = daily_reference_et_mm({.air_mean_c = 16.9,
                                             .vapour_deficit_kpa = saturated - actual,
                                             .wind_2_m_m_s = wind,
                                             .net_radiation_mj_m2 = net,
                                             .pressure_kpa = pressure});
    CHECK(et == within(out["ETo_mm_d_unrounded"], 0.005));
}

TEST_CASE("an hour in Senegal, example 19", "[drying][published]") {
    // FAO Irrigation and Drainage Paper 56 (1998), example 19: N'Diaye, 1 October, 14 to 15 h.
    const auto out = fao_example("19b")["published_outputs"];
    const double actual = climate::saturation_vapour_pressure_kpa(38.0) * 0.52;
    CHECK(actual == within(out["ea"], 0.001));
    const double longwave = hourly_net_longwave_mj_m2(38.0, actual, out["Rs_over_Rso"]);
    CHECK(longwave == within(out["Rnl"], 0.001));
    const double net = 0.77 * 2.45 - longwave;
    CHECK(net == within(out["Rn"], 0.001));
    const double soil = hourly_soil_heat_mj_m2(net, true);
    CHECK(soil == within(out["G"], 0.001));
    const double et = hourly_reference_et_mm({.air_c = 38.0,
                                              .vapour_pressure_kpa = actual,
                                              .wind_2_m_m_s = 3.3,
                                              .net_radiation_mj_m2 = net,
                                              .soil_heat_mj_m2 = soil,
                                              .pressure_kpa = climate::air_pressure_kpa(8.0)});
    CHECK(et == within(out["ETo_mm_h"], 0.005));
}

TEST_CASE("reference evapotranspiration of sixty days", "[drying][published]") {
    // Generated from the paper's equations; RefET ("simple") agrees within 0.0013 mm/d.
    const auto rows = sun::test::read_table("fao56_daily_generated.csv");
    REQUIRE(rows.size() == 60);
    for (const auto& row : rows) {
        const double mean_c = 0.5 * (row.number("tmin_c") + row.number("tmax_c"));
        const double et = daily_reference_et_mm(
            {.air_mean_c = mean_c,
             .vapour_deficit_kpa = row.number("es_kpa") - row.number("ea_kpa"),
             .wind_2_m_m_s = row.number("u2_m_s"),
             .net_radiation_mj_m2 = row.number("Rn"),
             .pressure_kpa = climate::air_pressure_kpa(row.number("elevation_m"))});
        CAPTURE(mean_c, row.number("elevation_m"));
        CHECK(et == within(row.number("ETo_mm_d"), 1e-4));
    }
}

TEST_CASE("more sun, more wind or drier air never means less", "[drying][property]") {
    const EtHour hour{
        .air_c = 27.0, .vapour_pressure_kpa = 1.6, .wind_2_m_m_s = 1.5, .net_radiation_mj_m2 = 1.4};
    const double et = hourly_reference_et_mm(hour);
    CHECK(et > 0.2);
    EtHour sunnier = hour;
    sunnier.net_radiation_mj_m2 = 1.8;
    CHECK(hourly_reference_et_mm(sunnier) > et);
    EtHour drier = hour;
    drier.vapour_pressure_kpa = 1.1;
    CHECK(hourly_reference_et_mm(drier) > et);
    // Wind dries when the air is dry; in sun and moist air it may cool instead.
    EtHour dry_calm = drier;
    dry_calm.net_radiation_mj_m2 = 0.2;
    EtHour dry_windy = dry_calm;
    dry_windy.wind_2_m_m_s = 4.0;
    CHECK(hourly_reference_et_mm(dry_windy) > hourly_reference_et_mm(dry_calm));
}

TEST_CASE("at night the ground gives its heat back", "[drying][property]") {
    CHECK(hourly_soil_heat_mj_m2(-0.2, false) == within(-0.1, 1e-12));
    CHECK(hourly_net_longwave_mj_m2(15.0, 1.2, 0.8) > 0.0);
    CHECK(hourly_net_longwave_mj_m2(15.0, 1.2, 0.0) < hourly_net_longwave_mj_m2(15.0, 1.2, 1.0));
}
