#include "base/within.h"
#include "geometry/garden_scenes.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::geometry;
using sunfleck::test::within;

TEST_CASE("one crown diameter lets the stated share through", "[geometry][property]") {
    auto tree = tree_at({0.0, 0.0});
    tree.crown_width_across_m = tree.crown_width_m = 5.0;
    tree.crown_form = scene::CrownForm::column;
    tree.leaf_out = std::chrono::April / 25;
    tree.leaf_fall = std::chrono::November / 1;
    const Garden garden = garden_with(tree);
    const Vec3 beside{-10.0, 0.0, 5.0};
    CHECK(light_at(garden, beside, {1, 0, 0}, make_date(2026, 7, 1)) == Approx(0.1));
    CHECK(light_at(garden, beside, {1, 0, 0}, make_date(2026, 1, 1)) == Approx(0.5));
    // From the middle: half the way, the root of the share.
    CHECK(light_at(garden, {0.0, 0.0, 5.0}, {1, 0, 0}, make_date(2026, 7, 1)) ==
          Approx(std::sqrt(0.1)));
}

TEST_CASE("the share let through is that of the mean of a crown's two widths",
          "[geometry][property]") {
    auto tree = tree_at({0.0, 0.0});
    tree.crown_width_m = 6.0;
    tree.crown_width_across_m = 4.0;
    tree.crown_form = scene::CrownForm::column;
    tree.leaf_habit = scene::LeafHabit::evergreen;
    const Garden garden = garden_with(tree);
    const double along = light_at(garden, {-10.0, 0.0, 5.0}, {1, 0, 0});
    const double across = light_at(garden, {0.0, -10.0, 5.0}, {0, 1, 0});
    // Ways of 6 and 4 m through what stops nine tenths over 5 m.
    CHECK(std::min(along, across) == Approx(std::pow(0.1, 6.0 / 5.0)));
    CHECK(std::max(along, across) == Approx(std::pow(0.1, 4.0 / 5.0)));
}

TEST_CASE("crowns that pass all or nothing do so", "[geometry][property]") {
    auto tree = tree_at({0.0, 0.0});
    tree.leaf_habit = scene::LeafHabit::evergreen;
    tree.transmission_in_leaf = 0.0;
    CHECK(light_at(garden_with(tree), {-10.0, 0.0, 5.0}, {1, 0, 0}) == within(0.0, 1e-200));
    tree.transmission_in_leaf = 1.0;
    const Garden clear = garden_with(tree);
    CHECK(light_at(clear, {-10.0, 0.0, 5.0}, {1, 0, 0}) == Approx(1.0));
    CHECK_FALSE(
        pass(clear.pieces[0], optics_on(clear.pieces[0], any_day), {-10.0, 0.0, 5.0}, {1, 0, 0})
            .is_met);
}

TEST_CASE("leaves turn by the hemisphere's own dates when none are given", "[geometry][property]") {
    scene::Scene scene;
    scene.trees.push_back(tree_at({0.0, 0.0}));
    scene.trees[0].trunk_diameter_m = 0.0;
    for (const double latitude : {51.5, -37.8}) {
        scene.site.place.latitude = Latitude::degrees(latitude);
        const auto garden = build_garden(scene);
        REQUIRE(garden);
        const Piece& crown = garden->pieces.at(0);
        const double january = optics_on(crown, make_date(2026, 1, 15)).k_per_m;
        const double july = optics_on(crown, make_date(2026, 7, 15)).k_per_m;
        CHECK((july > january) == (latitude > 0.0));
    }
}

TEST_CASE("a trunk is as wide as stated on the mean over all sides, and meets its crown",
          "[geometry][property]") {
    auto tree = tree_at({0.0, 0.0});
    for (const auto form : {scene::CrownForm::ellipsoid, scene::CrownForm::cone,
                            scene::CrownForm::dome, scene::CrownForm::column}) {
        tree.crown_form = form;
        const Garden garden = garden_with(tree);
        double mean = 0.0;
        constexpr int sides = 90;
        for (int i = 0; i < sides; ++i) {
            const Vec3 ahead = on_ground(4.0 * i);
            const Vec3 side = on_ground(4.0 * i + 90.0);
            const auto edge = [&](double sign) {
                const auto is_lit = [&](double at) {
                    const Vec3 from = (sign * at) * side - 5.0 * ahead + Vec3{0.0, 0.0, 1.0};
                    return light_at(garden, from, ahead) > 0.5;
                };
                return edge_m(is_lit, 0.0, 1.0);
            };
            mean += (edge(1.0) + edge(-1.0)) / sides;
        }
        CAPTURE(static_cast<int>(form));
        CHECK(mean == Approx(0.25).epsilon(1e-3));
        // No light between trunk and crown.
        for (const double z : {2.49, 2.4999, 2.5001}) {
            CHECK(light_at(garden, {-0.12, -5.0, z}, {0, 1, 0}) < 1.0);
        }
    }
}

TEST_CASE("a tree on a slope stands on it", "[geometry][property]") {
    scene::Scene scene;
    scene.ground = {Angle::degrees(10.0), Angle::degrees(90.0)};
    scene.trees.push_back(tree_at({3.0, 0.0}));
    const auto garden = build_garden(scene);
    REQUIRE(garden);
    REQUIRE(garden->pieces.size() == 2);
    const double ground = -3.0 * std::tan(Angle::degrees(10.0).in_radians());
    CHECK(garden->pieces[0].low.z == Approx(ground + 2.5));
    CHECK(garden->pieces[0].high.z == Approx(ground + 9.0));
    CHECK(garden->pieces[1].low.z < ground);
}
