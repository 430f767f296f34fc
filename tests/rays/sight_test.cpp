#include "sunfleck/rays/sight.h"

#include "base/within.h"
#include "rays/hand_made_garden.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>

using namespace sunfleck;
using namespace sunfleck::test;
using rays::Beam;
using rays::Cover;

namespace {

// A direction at a share of the beam's half-angle from its axis.
Vec3 ray_in(const Beam& beam, double share, double around_rad) {
    const Vec3 up = std::abs(beam.axis.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{1, 0, 0};
    const Vec3 side = normalised(cross(up, beam.axis));
    const Vec3 over = cross(beam.axis, side);
    const Angle off = share * beam.half_angle;
    return cos(off) * beam.axis +
           sin(off) * (std::cos(around_rad) * side + std::sin(around_rad) * over);
}

// Rays on a fine polar grid of the beam; how many of them meet the piece.
int rays_met(const geometry::Piece& piece, const Beam& beam, int& rays) {
    int met = 0;
    rays = 0;
    for (int ring = 0; ring <= 6; ++ring) {
        for (int around = 0; around < 16; ++around) {
            const Vec3 d = ray_in(beam, ring / 6.0 * 0.999, around * 0.3926990817);
            ++rays;
            if (geometry::pass(piece, {.hangs = true, .k_per_m = 1.0}, beam.origin, d).is_met) {
                ++met;
            }
        }
    }
    return met;
}

// The most light that a ray of the same grid keeps.
double brightest_in(const geometry::Piece& piece, const Beam& beam) {
    double most = 0.0;
    for (int ring = 0; ring <= 6; ++ring) {
        for (int around = 0; around < 16; ++around) {
            const Vec3 d = ray_in(beam, ring / 6.0 * 0.999, around * 0.3926990817);
            const auto passage =
                geometry::pass(piece, {.hangs = true, .k_per_m = 1.0}, beam.origin, d);
            most = std::max(most, passage.transmittance);
        }
    }
    return most;
}

std::vector<geometry::Piece> one_of_each() {
    return {solid_box({1, 1, 1}, {2, 1.5, 1.6}, 0.0, 0.4, 0.3),
            solid_box({1, -2, 0}, {1.04, 2, 3}, 0.2, 0.1), level_cloth({-1, -1}, {2, 1}, 1.4, 0.6),
            sagging_cloth({-1, -1}, {2, 1}, 1.4, 0.25, 0.6),
            sagging_cloth({-1, -1}, {2, 1}, 1.4, 1.1, 0.6),
            cloth_bag({-1, -1}, {2, 1}, 1.4, 1.1, 0.6), ball_crown({1, 2, 2}, 0.9, 1.0),
            lath_panel({0, -1, 1.5}, 2.0, 12, 0.05, 0.05, 0.02),
            // Told apart from under it, melting into each other from the side.
            lath_panel({0, -1, 1.5}, 2.0, 40, 0.02, 0.02, 0.004)};
}

}  // namespace

TEST_CASE("a sight passes the same rays as the body itself", "[rays][cross]") {
    Dice dice(11);
    int checked = 0;
    int met = 0;
    for (const geometry::Piece& piece : one_of_each()) {
        const geometry::Garden garden = garden_of({piece});
        const rays::Sights sights(garden);
        const geometry::PieceOptics optics{.hangs = true, .k_per_m = 0.7};
        for (int i = 0; i < 2000; ++i) {
            const Vec3 origin = dice.point(-3.0, 4.0);
            const Vec3 aim =
                piece.low + Vec3{dice.between(-0.2, 1.2) * (piece.high.x - piece.low.x),
                                 dice.between(-0.2, 1.2) * (piece.high.y - piece.low.y),
                                 dice.between(-0.2, 1.2) * (piece.high.z - piece.low.z)};
            const Vec3 d = normalised(aim - origin);
            const auto expected = geometry::pass(piece, optics, origin, d);
            const auto found = sights.from(origin, {.piece = 0}).pass(optics, d);
            CAPTURE(piece.body.index(), origin.x, origin.y, origin.z, d.x, d.y, d.z);
            CHECK(found.is_met == expected.is_met);
            CHECK(found.transmittance == within(expected.transmittance, 1e-12));
            met += expected.is_met ? 1 : 0;
            ++checked;
        }
    }
    CHECK(checked == 18000);
    CHECK(met > 4000);
}

TEST_CASE("cover never claims what a ray contradicts", "[rays][property]") {
    Dice dice(12);
    int decided[4] = {0, 0, 0, 0};
    for (const geometry::Piece& piece : one_of_each()) {
        const geometry::Garden garden = garden_of({piece});
        const rays::Sights sights(garden);
        for (int i = 0; i < 400; ++i) {
            const Vec3 origin = dice.point(-3.0, 4.0);
            const Vec3 aim{dice.between(piece.low.x - 0.5, piece.high.x + 0.5),
                           dice.between(piece.low.y - 0.5, piece.high.y + 0.5),
                           dice.between(piece.low.z - 0.5, piece.high.z + 0.5)};
            const Beam beam{.origin = origin,
                            .axis = normalised(aim - origin),
                            .half_angle = Angle::degrees(dice.between(0.2, 6.0))};
            const Cover cover = sights.from(origin, {.piece = 0}).cover(beam);
            ++decided[static_cast<int>(cover)];
            int all = 0;
            const int met = rays_met(piece, beam, all);
            CAPTURE(piece.body.index(), i, met, all);
            if (cover == Cover::none) CHECK(met == 0);
            if (cover == Cover::whole || cover == Cover::dark) CHECK(met == all);
            if (cover == Cover::dark) CHECK(brightest_in(piece, beam) <= 0.0);
        }
    }
    // The answer is of use: most beams are decided.
    CHECK(decided[0] > 800);
    CHECK(decided[2] + decided[3] > 300);
    CHECK(decided[3] > 30);
}

TEST_CASE("a fan is dimmed as its single rays are", "[rays][cross]") {
    Dice dice(14);
    std::vector<geometry::Piece> pieces = one_of_each();
    for (const scene::CrownForm form :
         {scene::CrownForm::dome, scene::CrownForm::cone, scene::CrownForm::column}) {
        pieces.push_back(ball_crown({1, 2, 2}, 0.9, 1.0));
        std::get<geometry::Crown>(pieces.back().body).form = form;
    }
    // From far away, where laths melt into each other.
    pieces.push_back(lath_panel({0, -1, 4.5}, 2.0, 80, 0.02, 0.02, 0.004));
    const geometry::PieceOptics optics{.hangs = true, .k_per_m = 0.7};
    std::size_t met = 0;
    std::size_t passed = 0;
    for (const geometry::Piece& piece : pieces) {
        const geometry::Garden garden = garden_of({piece});
        const rays::Sights sights(garden);
        for (int i = 0; i < 300; ++i) {
            const Vec3 origin = dice.point(-3.0, 4.0);
            const Vec3 aim{dice.between(piece.low.x - 0.2, piece.high.x + 0.2),
                           dice.between(piece.low.y - 0.2, piece.high.y + 0.2),
                           dice.between(piece.low.z - 0.2, piece.high.z + 0.2)};
            std::vector<double> x;
            std::vector<double> y;
            for (int ray = 0; ray < 8; ++ray) {
                x.push_back(dice.between(-0.7, 0.7));
                y.push_back(dice.between(-0.7, 0.7));
            }
            const Vec3 centre = normalised(aim - origin);
            const Vec3 side = normalised(cross(centre, Vec3{0.3, -0.5, 0.8}));
            const geometry::RayFan fan{.origin = origin,
                                       .centre = centre,
                                       .side = 0.005 * side,
                                       .over = 0.005 * cross(centre, side),
                                       .x = x,
                                       .y = y};
            std::vector<double> kept(8, 0.8);
            std::vector<double> is_met(8, 0.0);
            std::vector<double> scratch(16);
            sights.from(origin, {.piece = 0})
                .dim(optics, fan, {.kept = kept, .is_met = is_met, .scratch = scratch});
            for (std::size_t ray = 0; ray < 8; ++ray) {
                const auto one = geometry::pass(piece, optics, origin, fan.direction(ray));
                CAPTURE(piece.body.index(), i, ray, one.transmittance);
                CHECK((is_met[ray] > 0.5) == one.is_met);
                CHECK(std::abs(kept[ray] - 0.8 * one.transmittance) < 1e-9);
                ++(one.is_met ? met : passed);
            }
        }
    }
    CHECK(met > 6000);
    CHECK(passed > 6000);
}

TEST_CASE("a cloth that sags is one cone from below", "[rays][property]") {
    const geometry::Garden garden = garden_of({sagging_cloth({-1, -1}, {2, 1}, 1.4, 0.25, 0.6)});
    const rays::Sights sights(garden);
    CHECK(sights.from({0.5, 0.2, 0.4}, {.piece = 0}).is_cone());
    CHECK(sights.from({0.5, 0.2, 2.4}, {.piece = 0}).is_cone());
    // Inside its bag, and level with its rim, it shows two sides or bounds an opening.
    CHECK_FALSE(sights.from({0.5, 0.0, 1.3}, {.piece = 0}).is_cone());
    CHECK_FALSE(sights.from({4.0, 0.0, 1.39}, {.piece = 0}).is_cone());
}

TEST_CASE("laths near by are told apart by cover", "[rays][property]") {
    // 5 cm laths and gaps seen from 1 m below: 2.9 degrees each.
    const geometry::Garden garden =
        garden_of({lath_panel({-1, -1, 2}, 2.0, 20, 0.05, 0.05, 0.002)});
    const rays::Sights sights(garden);
    const Vec3 origin{0.0, 0.0, 1.0};
    const rays::Sight sight = sights.from(origin, {.piece = 0});
    int counts[4] = {0, 0, 0, 0};
    for (int i = 0; i < 200; ++i) {
        const Vec3 aim{-0.3 + 0.003 * i, 0.0, 2.0};
        ++counts[static_cast<int>(sight.cover({.origin = origin,
                                               .axis = normalised(aim - origin),
                                               .half_angle = Angle::degrees(0.5)}))];
    }
    CHECK(counts[static_cast<int>(Cover::none)] > 40);
    CHECK(counts[static_cast<int>(Cover::dark)] > 40);
    CHECK(counts[static_cast<int>(Cover::whole)] == 0);
}

TEST_CASE("inside a solid every beam is covered", "[rays][property]") {
    const geometry::Garden garden = garden_of({solid_box({0, 0, 0}, {2, 2, 2})});
    const rays::Sights sights(garden);
    const auto sight = sights.from({1, 1, 1}, {.piece = 0});
    CHECK(sight.cover({.origin = {1, 1, 1}, .axis = {0, 0, 1}, .half_angle = Angle::degrees(9)}) ==
          Cover::dark);
    CHECK(sight.pass({}, {0, 0, 1}).transmittance <= 0.0);
}

TEST_CASE("a solid whose facets do not fit together is still asked right", "[rays][property]") {
    geometry::Piece piece = solid_box({1, -1, -1}, {2, 1, 1});
    std::get<geometry::ConvexSolid>(piece.body).facets.pop_back();
    const geometry::Garden garden = garden_of({piece});
    const rays::Sights sights(garden);
    const auto sight = sights.from({0, 0, 0}, {.piece = 0});
    CHECK_FALSE(sight.is_cone());
    CHECK(sight.cover({.origin = {}, .axis = {1, 0, 0}, .half_angle = Angle::degrees(5)}) ==
          Cover::dark);
    CHECK(sight.cover({.origin = {}, .axis = {0, 0, 1}, .half_angle = Angle::degrees(5)}) ==
          Cover::none);
    CHECK(sight.pass({.hangs = true}, {1, 0, 0}).is_met);
    CHECK_FALSE(sight.pass({.hangs = false}, {1, 0, 0}).is_met);
}
