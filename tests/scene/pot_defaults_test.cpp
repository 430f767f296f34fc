#include "sunfleck/scene/pot_defaults.h"

#include "base/within.h"
#include "sunfleck/scene/species.h"

#include <catch2/catch.hpp>

using sunfleck::test::within;

namespace sunfleck::scene {
namespace {

Pot completed(const Pot& pot) {
    Scene scene;
    scene.pots = {pot};
    complete_pots(scene);
    return scene.pots.front();
}

}  // namespace

// Usual sizes, soil and wet weight of the trade's classes: common practice, no source.
TEST_CASE("A usual pot of each class gets a usual soil volume and weight", "[scene][published]") {
    struct Row {
        const char* size_class;
        double length_m;
        double soil_low_l;
        double soil_high_l;
        double weight_low_kg;
        double weight_high_kg;
    };
    for (const Row& row :
         {Row{"keshi-tsubo", 0.03, 0.01, 0.04, 0.05, 0.15}, Row{"mame", 0.06, 0.03, 0.15, 0.1, 0.3},
          Row{"shohin", 0.11, 0.15, 0.7, 0.4, 1.2}, Row{"kifu", 0.20, 0.7, 2.5, 1.5, 5.0},
          Row{"chuhin", 0.34, 2.5, 8.0, 5.0, 15.0}, Row{"dai", 0.52, 8.0, 35.0, 15.0, 70.0},
          Row{"hachi-uye", 0.95, 40.0, 150.0, 80.0, 300.0}}) {
        CAPTURE(row.size_class);
        Pot pot;
        pot.pot_length_m = row.length_m;
        const Pot full = completed(pot);
        CHECK(full.soil_l >= row.soil_low_l);
        CHECK(full.soil_l <= row.soil_high_l);
        CHECK(full.weight_kg >= row.weight_low_kg);
        CHECK(full.weight_kg <= row.weight_high_kg);
    }
}

// Worked growers' example: 11 x 9 x 4.5 cm holds 0.38 l, 20 x 15 x 6 cm 1.5 l, 34 x 25 x 7.5 cm
// 5.4 l, 52 x 38 x 10 cm 17 l, by 0.85 l w d.
TEST_CASE("Soil is 0.85 of the pot's box", "[scene][published]") {
    CHECK(soil_of_box_l(0.11, 0.09, 0.045) == within(0.38, 0.005));
    CHECK(soil_of_box_l(0.20, 0.15, 0.06) == within(1.5, 0.05));
    CHECK(soil_of_box_l(0.34, 0.25, 0.075) == within(5.4, 0.05));
    CHECK(soil_of_box_l(0.52, 0.38, 0.10) == within(17.0, 0.5));
}

TEST_CASE("Sizes grow with whatever size is given", "[scene][property]") {
    Pot before;
    for (double size = 0.01; size < 3.0; size *= 1.07) {
        CAPTURE(size);
        Pot by_length;
        by_length.pot_length_m = size;
        const Pot full = completed(by_length);
        CHECK(full.pot_length_m == within(size, 1e-15));
        for (const double got : {full.pot_width_m, full.pot_height_m, full.crown_width_m,
                                 full.crown_height_m, full.soil_l, full.weight_kg}) {
            CHECK(got > 0.0);
        }
        CHECK(full.soil_l > before.soil_l);
        CHECK(full.crown_width_m > before.crown_width_m);
        // The way back: a pot known by its soil, crown or width alone gets the same length.
        for (double Pot::*known : {&Pot::soil_l, &Pot::crown_width_m, &Pot::pot_width_m}) {
            Pot other;
            other.*known = full.*known;
            CHECK(completed(other).pot_length_m == Approx(size).epsilon(1e-9));
        }
        before = full;
    }
}

TEST_CASE("What the owner gave is kept", "[scene][property]") {
    Pot pot;
    pot.pot_length_m = 0.30;
    pot.pot_width_m = 0.30;
    pot.soil_l = 5.0;
    pot.weight_kg = 7.5;
    pot.crown_height_m = 0.9;
    const Pot full = completed(pot);
    CHECK(full.pot_width_m == Approx(0.30));
    CHECK(full.soil_l == Approx(5.0));
    CHECK(full.weight_kg == Approx(7.5));
    CHECK(full.crown_height_m == Approx(0.9));
    CHECK(full.crown_width_m > 0.3);
    CHECK(completed(Pot{}).pot_length_m == Approx(0.11));  // nothing known: a shohin
}

TEST_CASE("Wants come from the species with the owner's own on top", "[scene][property]") {
    Pot pot;
    pot.species = "Acer palmatum";
    CHECK(completed(pot).wants == find_species("Acer palmatum")->wants);
    CHECK(completed(pot).has_known_wants);
    pot.own_wants.sun_max_h = 3.0;
    pot.own_wants.scorch_risk = ScorchRisk::low;
    const Wants own = completed(pot).wants;
    CHECK(own.sun_max_h == Approx(3.0));
    CHECK(own.sun_min_h == Approx(3.0));  // the species' 4 h would pass the stated most
    CHECK(own.scorch_risk == ScorchRisk::low);
    CHECK(own.drought_tolerance == Approx(2.0));
    pot.own_wants = {.sun_min_h = 1.5,
                     .sun_max_h = 7.5,
                     .drought_tolerance = 0.5,
                     .shade_tolerance = 4.5,
                     .scorch_risk = ScorchRisk::medium,
                     .shelter_below_c = -3.5};
    CHECK(completed(pot).wants == Wants{.sun_min_h = 1.5,
                                        .sun_max_h = 7.5,
                                        .drought_tolerance = 0.5,
                                        .shade_tolerance = 4.5,
                                        .scorch_risk = ScorchRisk::medium,
                                        .shelter_below_c = -3.5});
    pot.species = "a stranger";
    CHECK(completed(pot).has_known_wants);
    pot.own_wants = {};
    CHECK_FALSE(completed(pot).has_known_wants);
    CHECK(completed(pot).wants == Wants{});
}

}  // namespace sunfleck::scene
