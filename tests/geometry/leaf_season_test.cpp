#include "geometry/garden_scenes.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::geometry;
using namespace std::chrono;

namespace {

Piece tree_piece(scene::LeafHabit habit, MonthDay out, MonthDay fall) {
    Piece piece;
    piece.body = Crown{};
    piece.k_in_leaf_per_m = 1.0;
    piece.k_bare_per_m = 0.2;
    piece.leaf_habit = habit;
    piece.leaf_out = out;
    piece.leaf_fall = fall;
    return piece;
}

double k_on(const Piece& piece, int year, unsigned month, unsigned day) {
    return optics_on(piece, make_date(year, month, day)).k_per_m;
}

}  // namespace

TEST_CASE("leaves come and go over 21 days about their middle dates", "[geometry][property]") {
    const Piece piece = tree_piece(scene::LeafHabit::deciduous, April / 25, November / 1);
    CHECK(k_on(piece, 2026, 1, 1) == Approx(0.2));
    CHECK(k_on(piece, 2026, 4, 14) == Approx(0.2));
    CHECK(k_on(piece, 2026, 4, 15) == Approx(0.2 + 0.8 * 0.5 / 21.0));
    CHECK(k_on(piece, 2026, 4, 25) == Approx(0.6));
    CHECK(k_on(piece, 2026, 5, 5) == Approx(1.0 - 0.8 * 0.5 / 21.0));
    CHECK(k_on(piece, 2026, 5, 6) == Approx(1.0));
    CHECK(k_on(piece, 2026, 8, 1) == Approx(1.0));
    CHECK(k_on(piece, 2026, 11, 1) == Approx(0.6));
    CHECK(k_on(piece, 2026, 11, 12) == Approx(0.2));
    CHECK(k_on(piece, 2026, 12, 31) == Approx(0.2));
}

TEST_CASE("a southern summer in leaf passes new year", "[geometry][property]") {
    const Piece piece = tree_piece(scene::LeafHabit::deciduous, September / 20, May / 10);
    CHECK(k_on(piece, 2026, 1, 1) == Approx(1.0));
    CHECK(k_on(piece, 2026, 5, 10) == Approx(0.6));
    CHECK(k_on(piece, 2026, 7, 1) == Approx(0.2));
    CHECK(k_on(piece, 2026, 9, 20) == Approx(0.6));
    CHECK(k_on(piece, 2026, 12, 31) == Approx(1.0));
    // A change that itself passes new year.
    const Piece late = tree_piece(scene::LeafHabit::deciduous, January / 2, July / 1);
    CHECK(k_on(late, 2026, 12, 28) == Approx(0.2 + 0.8 * (0.5 - 5.0 / 21.0)));
    CHECK(k_on(late, 2026, 1, 2) == Approx(0.6));
    const Piece early = tree_piece(scene::LeafHabit::deciduous, June / 1, December / 30);
    CHECK(k_on(early, 2026, 1, 4) == Approx(0.6 - 0.8 * 5.0 / 21.0));
}

TEST_CASE("extinction changes by at most a twenty-first a day, in leap years too",
          "[geometry][property]") {
    for (const auto& [out, fall] :
         {std::pair{April / 25, November / 1}, std::pair{September / 20, May / 10},
          std::pair{February / 29, February / 10}}) {
        const Piece piece = tree_piece(scene::LeafHabit::deciduous, out, fall);
        double before = optics_on(piece, make_date(2026, 12, 31)).k_per_m;
        for (Date date = make_date(2027, 1, 1); year_of(date) < 2030; date = add_days(date, 1)) {
            const double now = optics_on(piece, date).k_per_m;
            CAPTURE(iso_date(date));
            CHECK(std::abs(now - before) <= 0.8 / 21.0 + 1e-12);
            before = now;
        }
    }
}

TEST_CASE("evergreens keep their leaves, semi-evergreens half of them", "[geometry][property]") {
    const Piece evergreen = tree_piece(scene::LeafHabit::evergreen, April / 25, November / 1);
    CHECK(k_on(evergreen, 2026, 1, 1) == Approx(1.0));
    const Piece semi = tree_piece(scene::LeafHabit::semi_evergreen, April / 25, November / 1);
    CHECK(k_on(semi, 2026, 1, 1) == Approx(0.6));
    CHECK(k_on(semi, 2026, 7, 1) == Approx(1.0));
}

TEST_CASE("a cloth shades only while it hangs", "[geometry][property]") {
    scene::Scene scene;
    scene.cloths.push_back(cloth_of({{0, 0, 2}, {2, 0, 2}, {2, 2, 2}, {0, 2, 2}}, 0.4));
    scene.cloths[0].up = {{May / 20, September / 5}, {December / 20, January / 10}};
    scene.cloths[0].flaps = {{0, 1.0}};
    const auto garden = build_garden(scene);
    REQUIRE(garden);
    const auto light = [&](Date date, Vec3 direction) {
        return light_at(*garden, {1.0, 1.0, 1.5}, direction, date);
    };
    const Vec3 up{0.0, 0.0, 1.0};
    const Vec3 south = on_ground(180.0);
    for (const Vec3 direction : {up, south}) {
        CHECK(light(make_date(2026, 5, 19), direction) == Approx(1.0));
        CHECK(light(make_date(2026, 5, 20), direction) == Approx(0.6));
        CHECK(light(make_date(2026, 9, 5), direction) == Approx(0.6));
        CHECK(light(make_date(2026, 9, 6), direction) == Approx(1.0));
        CHECK(light(make_date(2027, 1, 1), direction) == Approx(0.6));
    }
    CHECK(optics_on(*garden, make_date(2026, 3, 1)).size() == garden->pieces.size());
}
