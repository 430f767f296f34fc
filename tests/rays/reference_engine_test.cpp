#include "base/within.h"
#include "rays/hand_made_garden.h"
#include "sunfleck/rays/engine.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace sunfleck;
using namespace sunfleck::test;

namespace {

geometry::Passage by_hand(const geometry::Garden& garden,
                          const std::vector<geometry::PieceOptics>& optics, Vec3 origin,
                          Vec3 direction) {
    geometry::Passage all;
    for (std::size_t i = 0; i < garden.pieces.size(); ++i) {
        const auto one = geometry::pass(garden.pieces[i], optics[i], origin, direction);
        all.is_met = all.is_met || one.is_met;
        all.transmittance *= one.transmittance;
    }
    return all;
}

}  // namespace

TEST_CASE("the reference engine multiplies every layer", "[rays][cross]") {
    int blocked = 0;
    int dimmed = 0;
    for (std::uint64_t seed = 1; seed <= 4; ++seed) {
        geometry::Garden garden = random_garden(seed);
        garden.pieces.push_back(lath_panel({-2, -2, 2.0}, 3.0, 20, 0.04, 0.04, 0.015));
        auto optics = all_up(garden);
        optics[3].hangs = false;
        const auto engine = rays::make_reference_engine(garden);
        Dice dice(100 + seed);
        for (int i = 0; i < 60; ++i) {
            const Vec3 direction = dice.direction();
            std::vector<Vec3> origins;
            for (int k = 0; k < 20; ++k) origins.push_back(dice.point(-5.0, 5.0));
            std::vector<geometry::Passage> passages(origins.size());
            engine->pass_towards(direction, optics, origins, passages);
            for (std::size_t k = 0; k < origins.size(); ++k) {
                const auto expected = by_hand(garden, optics, origins[k], direction);
                CHECK(passages[k].is_met == expected.is_met);
                CHECK(passages[k].transmittance == within(expected.transmittance, 1e-12));
                blocked += expected.transmittance <= 0.0 ? 1 : 0;
                dimmed += expected.is_met && expected.transmittance > 0.0 ? 1 : 0;
            }
        }
    }
    CHECK(blocked > 300);
    CHECK(dimmed > 300);
}

TEST_CASE("no part that a ray of a beam meets is missing", "[rays][property]") {
    int met = 0;
    for (std::uint64_t seed = 21; seed <= 23; ++seed) {
        const geometry::Garden garden = random_garden(seed);
        const auto optics = all_up(garden);
        const auto engine = rays::make_reference_engine(garden);
        Dice dice(seed);
        for (int i = 0; i < 300; ++i) {
            const rays::Beam beam{.origin = dice.point(-5.0, 5.0),
                                  .axis = dice.direction(),
                                  .half_angle = Angle::degrees(dice.between(0.0, 8.0))};
            std::vector<rays::Part> parts;
            engine->add_parts_in(beam, parts);
            CHECK(std::is_sorted(parts.begin(), parts.end()));
            CHECK(std::adjacent_find(parts.begin(), parts.end()) == parts.end());
            const Vec3 off = tan(beam.half_angle) * dice.direction();
            Vec3 ray = normalised(beam.axis + off);
            if (dot(ray, beam.axis) < cos(beam.half_angle)) ray = beam.axis;
            for (std::size_t p = 0; p < garden.pieces.size(); ++p) {
                if (!geometry::pass(garden.pieces[p], optics[p], beam.origin, ray).is_met) continue;
                const rays::Part part{.piece = static_cast<std::uint32_t>(p)};
                CHECK(std::binary_search(parts.begin(), parts.end(), part));
                ++met;
            }
        }
    }
    CHECK(met > 100);
}

TEST_CASE("a hair's breadth of a beam meets what it aims at to the very corners",
          "[rays][property]") {
    Dice dice(31);
    for (int i = 0; i < 100; ++i) {
        const Vec3 low = dice.point(-3.0, 3.0);
        const Vec3 size = dice.point(0.05, 3.0);
        const Vec3 high = low + size;
        const geometry::Garden garden = garden_of({solid_box(low, high)});
        const auto engine = rays::make_reference_engine(garden);
        for (int corner = 0; corner < 8; ++corner) {
            const Vec3 aim{(corner & 1) != 0 ? high.x : low.x, (corner & 2) != 0 ? high.y : low.y,
                           (corner & 4) != 0 ? high.z : low.z};
            const Vec3 origin = aim - dice.between(5.0, 20.0) * dice.direction();
            std::vector<rays::Part> parts;
            engine->add_parts_in({.origin = origin,
                                  .axis = normalised(aim - origin),
                                  .half_angle = Angle::degrees(1e-6)},
                                 parts);
            CHECK(parts.size() == 1);
        }
    }
}

TEST_CASE("an imported mesh is found facet by facet", "[rays][property]") {
    geometry::MeshBody mesh{rays::facets_of_box({2, -1, 0}, {3, 1, 2})};
    const geometry::Garden garden =
        garden_of({with_box(mesh, {{2, -1, 0}, {3, 1, 2}}), solid_box({5, -1, 0}, {6, 1, 2})});
    const auto engine = rays::make_reference_engine(garden);
    const auto optics = all_up(garden);
    std::vector<rays::Part> parts;
    engine->add_parts_in(
        {.origin = {0, 0, 1}, .axis = {1, 0, 0}, .half_angle = Angle::degrees(0.1)}, parts);
    CHECK(std::count_if(parts.begin(), parts.end(),
                        [](const rays::Part& part) { return part.piece == 0; }) >= 2);
    CHECK(std::none_of(parts.begin(), parts.end(), [](const rays::Part& part) {
        return part.piece == 0 && part.facet == rays::Part::whole_piece;
    }));
    std::vector<geometry::Passage> passages(2);
    const std::vector<Vec3> origins{{0, 0, 1}, {0, 0, 3}};
    engine->pass_towards({1, 0, 0}, optics, origins, passages);
    CHECK(passages[0].transmittance <= 0.0);
    CHECK_FALSE(passages[1].is_met);
}

TEST_CASE("no ray slips between two triangles that share an edge", "[rays][property]") {
    const geometry::Garden garden = garden_of({solid_box({1, -1, -1}, {2, 1, 1})});
    const auto engine = rays::make_reference_engine(garden);
    const auto optics = all_up(garden);
    // Rays at points of the front face's diagonal, along which its two triangles meet.
    int blocked = 0;
    for (int i = 1; i < 200; ++i) {
        const double s = -1.0 + i / 100.0;
        std::vector<geometry::Passage> passages(1);
        const std::vector<Vec3> origin{{0.0, 0.0, 0.0}};
        engine->pass_towards(normalised({1.0, s, s}), optics, origin, passages);
        blocked += passages[0].transmittance <= 0.0 ? 1 : 0;
        engine->pass_towards(normalised({1.0, s, -s}), optics, origin, passages);
        blocked += passages[0].transmittance <= 0.0 ? 1 : 0;
    }
    CHECK(blocked == 398);
}
