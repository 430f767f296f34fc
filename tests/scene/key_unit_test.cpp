#include "scene/key_unit.h"

#include <catch2/catch.hpp>

using namespace sunfleck::scene;

namespace {

const Unit* metres() {
    return unit_of_key("height_m");
}

}  // namespace

TEST_CASE("a key's unit is the longest that its end can be", "[scene][property]") {
    CHECK(unit_of_key("wind_m_s")->name == "metres per second");
    CHECK(unit_of_key("radiation_mj_m2")->symbol == "MJ/m²");
    CHECK(unit_of_key("height_m")->symbol == "m");
    CHECK(unit_of_key("soil_l")->name == "litres");
    CHECK(unit_of_key("name") == nullptr);
    CHECK(unit_of_key("m") == nullptr);
    CHECK(unit_of_key("_m") == nullptr);
    CHECK(stem_of_key("wind_m_s") == "wind");
    CHECK(stem_of_key("name") == "name");
}

TEST_CASE("values convert within a measure only", "[scene][published]") {
    // The foot and pound of the international agreement of 1959: 0.3048 m, 0.45359237 kg.
    CHECK(converted(10, *unit_of_key("x_ft"), *metres()) == Approx(3.048));
    CHECK(converted(100, *unit_of_key("x_lb"), *unit_of_key("x_kg")) == Approx(45.359237));
    CHECK(converted(80, *unit_of_key("x_cm"), *metres()) == Approx(0.8));
    CHECK_FALSE(converted(80, *unit_of_key("x_kg"), *metres()));
}

TEST_CASE("a text with a unit is understood for a hint", "[scene][property]") {
    CHECK(measured_in("80 cm", metres()) == Approx(0.8));
    CHECK(measured_in(" 80cm ", metres()) == Approx(0.8));
    CHECK(measured_in("0,8", metres()) == Approx(0.8));
    CHECK(measured_in("40 %", unit_of_key("albedo_fraction")) == Approx(0.4));
    CHECK_FALSE(measured_in("80 kg", metres()));
    CHECK_FALSE(measured_in("high", metres()));
    CHECK_FALSE(measured_in("", metres()));
    CHECK_FALSE(measured_in("inf", metres()));
    CHECK_FALSE(measured_in("80 cm", nullptr));
}

TEST_CASE("numbers in messages are short and carry their unit", "[scene][property]") {
    CHECK(short_number(0.1 + 0.2) == "0.3");
    CHECK(short_number(0.0) == "0");
    CHECK(with_unit("0.8", metres()) == "0.8 m");
    CHECK(with_unit("350", unit_of_key("bearing_deg")) == "350°");
    CHECK(with_unit("0.4", unit_of_key("albedo_fraction")) == "0.4");
    CHECK(with_unit("3", nullptr) == "3");
}
