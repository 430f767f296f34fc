#include "base/within.h"
#include "geometry/garden_scenes.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::geometry;
using scene::RoofForm;
using sunfleck::test::within;

namespace {

/// Level of the upper surface over a point of the plan.
double roof_z(const Garden& garden, double x, double y) {
    const auto is_lit = [&](double z) {
        return light_at(garden, {x, y, z}, {0.0, 0.0, 1.0}) > 0.5;
    };
    return edge_m(is_lit, -1.0, 50.0);
}

const std::vector<Vec2> box = {{0, 0}, {8, 0}, {8, 6}, {0, 6}};

}  // namespace

TEST_CASE("a gable rises from eaves to ridge, overhang included", "[geometry][property]") {
    auto house = building_on(box, 5.0);
    house.roof = RoofForm::gable;
    house.ridge_height_m = 8.0;
    house.ridge_bearing = Angle::degrees(90.0);
    house.eaves_overhang_m = 0.5;
    const Garden garden = garden_with(house);
    // The roof spans 7 m: 3 m of rise over 3.5 m.
    const double rise = 3.0 / 3.5;
    CHECK(roof_z(garden, 4.0, 3.0) == Approx(8.0));
    CHECK(roof_z(garden, 0.1, 3.0) == Approx(8.0));
    CHECK(roof_z(garden, 4.0, -0.4) == Approx(5.0 + 0.1 * rise));
    CHECK(roof_z(garden, 4.0, 6.4) == Approx(5.0 + 0.1 * rise));
    CHECK(roof_z(garden, 4.0, 1.0) == Approx(5.0 + 1.5 * rise));
    CHECK(roof_z(garden, -0.4, 1.0) == Approx(5.0 + 1.5 * rise));
    CHECK(roof_z(garden, 4.0, -0.6) == Approx(-1.0));
    // Under the overhang it is open to the side.
    CHECK(light_at(garden, {4.0, -0.2, 4.0}, on_ground(180.0)) == Approx(1.0));
    CHECK(light_at(garden, {4.0, -0.2, 4.0}, {0, 0, 1}) == Approx(0.0));
}

TEST_CASE("a shed roof falls to the left of its high edge", "[geometry][property]") {
    auto shed = building_on(box, 2.0);
    shed.roof = RoofForm::shed;
    shed.ridge_height_m = 3.2;
    shed.ridge_bearing = Angle::degrees(90.0);  // eastward: the north side is low
    const Garden garden = garden_with(shed);
    CHECK(roof_z(garden, 4.0, 0.001) == within(3.2, 0.001));
    CHECK(roof_z(garden, 4.0, 5.999) == within(2.0, 0.001));
    CHECK(roof_z(garden, 4.0, 3.0) == Approx(2.6));
}

TEST_CASE("a building of any outline covers it and no more", "[geometry][cross]") {
    // A U round a yard, with an overhang that does not close it.
    const std::vector<Vec2> outline = {{0, 0}, {6, 0}, {6, 4}, {4, 4},
                                       {4, 2}, {2, 2}, {2, 4}, {0, 4}};
    const auto is_in = [](double x, double y) {
        return x > 0 && x < 6 && y > 0 && y < 4 && !(x > 2 && x < 4 && y > 2);
    };
    const auto is_near = [&](double x, double y, double d) {
        return x > -d && x < 6 + d && y > -d && y < 4 + d && !(x > 2 + d && x < 4 - d && y > 2 + d);
    };
    for (const bool is_clockwise : {false, true}) {
        auto house = building_on(outline, 3.0);
        if (is_clockwise) std::reverse(house.outline.begin(), house.outline.end());
        const Garden bare = garden_with(house);
        house.eaves_overhang_m = 0.3;
        const Garden garden = garden_with(house);
        Dice dice(8);
        for (int i = 0; i < 2000; ++i) {
            const double x = dice.between(-1.0, 7.0);
            const double y = dice.between(-1.0, 5.0);
            CAPTURE(is_clockwise, x, y);
            CHECK((roof_z(bare, x, y) > 2.9) == is_in(x, y));
            CHECK((roof_z(garden, x, y) > 2.9) == is_near(x, y, 0.3));
        }
    }
}

TEST_CASE("an overhang wider than a yard closes it", "[geometry][property]") {
    auto house =
        building_on({{0, 0}, {6, 0}, {6, 4}, {3.2, 4}, {3.2, 2}, {2.8, 2}, {2.8, 4}, {0, 4}}, 3.0);
    house.eaves_overhang_m = 0.3;
    const Garden garden = garden_with(house);
    CHECK(roof_z(garden, 3.0, 3.0) == Approx(3.0));
    CHECK(roof_z(garden, 3.0, 4.29) == Approx(3.0));
    CHECK(roof_z(garden, 3.0, 4.31) == Approx(-1.0));
    CHECK(light_at(garden, {3.0, 3.0, 1.0}, {0, 0, 1}) == Approx(0.0));
}

TEST_CASE("walls go down to the ground on a slope; heights count from the first corner",
          "[geometry][property]") {
    const auto house = building_on({{0, 10}, {8, 10}, {8, 16}, {0, 16}}, 3.0);
    const Garden garden = garden_with(house, falling(10.0, 180.0));  // falls to the south
    const double fall = std::tan(Angle::degrees(10.0).in_radians());
    CHECK(garden.pieces.at(0).high.z == Approx(10.0 * fall + 3.0));
    CHECK(garden.pieces.at(0).low.z == Approx(10.0 * fall));
    auto turned = house;
    turned.outline = {{8, 16}, {0, 16}, {0, 10}, {8, 10}};
    const Garden from_above = garden_with(turned, falling(10.0, 180.0));
    CHECK(from_above.pieces.at(0).high.z == Approx(16.0 * fall + 3.0));
    CHECK(from_above.pieces.at(0).low.z == Approx(10.0 * fall));
}

TEST_CASE("a roof that is not above its eaves is flat", "[geometry][property]") {
    auto house = building_on(box, 3.0);
    house.roof = RoofForm::gable;
    house.ridge_height_m = 3.0;
    CHECK(roof_z(garden_with(house), 4.0, 3.0) == Approx(3.0));
}
