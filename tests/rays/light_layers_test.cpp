#include "sunfleck/rays/light_layers.h"

#include "rays/light_cases.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::test;

namespace {

// Every three pieces are one object.
geometry::Garden garden_of_objects(std::uint64_t seed) {
    geometry::Garden garden = rich_garden(seed, 8);
    garden.objects.clear();
    for (std::size_t i = 0; i < garden.pieces.size(); ++i) {
        garden.pieces[i].object = static_cast<std::uint32_t>(i / 3);
        if (i % 3 == 0) garden.objects.push_back({.id = "O" + std::to_string(i), .name = {}});
    }
    return garden;
}

std::vector<rays::LightSpot> some_spots(Dice& dice, int count) {
    std::vector<rays::LightSpot> spots;
    for (int i = 0; i < count; ++i)
        spots.push_back({.point = dice.point(-3.0, 3.0), .outward = {}});
    spots.push_back({.point = dice.point(-3.0, 3.0), .outward = dice.direction()});
    return spots;
}

}  // namespace

TEST_CASE("After changes the light is that of tracing from nothing", "[rays][property]") {
    for (std::uint64_t seed = 0; seed < 6; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const rays::SunTable sun(random_dates(dice, 3), test_place(50.0));
        const std::vector<rays::LightSpot> spots = some_spots(dice, 12);
        const rays::LightRequest request{.spots = spots, .thread_count = 1};
        rays::LightLayers layers(garden_of_objects(seed), sun, request);
        CHECK(layers.light() == rays::make_solving_tracer(layers.garden(), sun)->trace(request));
        for (int step = 0; step < 8; ++step) {
            CAPTURE(step);
            const auto object = static_cast<std::uint32_t>(dice.between(0.0, 8.99));
            std::vector<geometry::Piece> pieces;
            const int count = static_cast<int>(dice.between(0.0, 2.99));
            for (int i = 0; i < count; ++i) {
                const Vec3 low = dice.point(-3.0, 2.0);
                pieces.push_back(solid_box(low, low + Vec3{0.4, 0.3, 1.5}));
                pieces.push_back(ball_crown(low + Vec3{0.0, 0.0, 2.0}, 0.9, 0.7));
            }
            const rays::LightSpans before = layers.light();
            const std::vector<std::uint32_t> changed = layers.replace_object(object, pieces);
            CHECK(layers.light() ==
                  rays::make_solving_tracer(layers.garden(), sun)->trace(request));
            for (std::size_t s = 0; s < spots.size(); ++s) {
                const bool is_told = std::find(changed.begin(), changed.end(), s) != changed.end();
                const auto was = before.day(s, 0);
                const auto is = layers.light().day(s, 0);
                if (!is_told) CHECK(std::equal(was.begin(), was.end(), is.begin(), is.end()));
            }
        }
    }
}

TEST_CASE("Layers give the same bytes on any number of threads", "[rays][property][threads]") {
    Dice dice(9);
    const rays::SunTable sun(random_dates(dice, 4), test_place(-20.0));
    const std::vector<rays::LightSpot> spots = some_spots(dice, 300);
    const geometry::Garden garden = garden_of_objects(3);
    rays::LightLayers one(garden, sun, {.spots = spots, .thread_count = 1});
    rays::LightLayers many(garden, sun, {.spots = spots, .thread_count = 4});
    CHECK(one.light() == many.light());
    const std::vector<geometry::Piece> moved{ball_crown({0.5, -1.0, 2.5}, 1.2, 0.6)};
    CHECK(one.replace_object(2, moved) == many.replace_object(2, moved));
    CHECK(one.light() == many.light());
}

TEST_CASE("An object taken away and put back leaves the light as it was", "[rays][property]") {
    Dice dice(4);
    const rays::SunTable sun(random_dates(dice, 2), test_place(40.0));
    const std::vector<rays::LightSpot> spots = some_spots(dice, 20);
    const geometry::Garden garden = garden_of_objects(5);
    rays::LightLayers layers(garden, sun, {.spots = spots, .thread_count = 1});
    const rays::LightSpans before = layers.light();
    std::vector<geometry::Piece> own;
    for (const geometry::Piece& piece : garden.pieces) {
        if (piece.object == 1) own.push_back(piece);
    }
    CHECK_FALSE(layers.replace_object(1, {}).empty());
    CHECK_FALSE(layers.light() == before);
    CHECK_FALSE(layers.replace_object(1, own).empty());
    CHECK(layers.light() == before);
}
