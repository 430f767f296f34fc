#include "sunfleck/geometry/shadow_outline.h"

#include "geometry/garden_scenes.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::geometry;

namespace {

/// Distance of the point to the outline's nearest edge line from within; negative outside.
double depth_in(const std::vector<Vec2>& outline, Vec2 p) {
    double depth = 1e9;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Vec2 edge = outline[(i + 1) % outline.size()] - outline[i];
        depth = std::min(depth, cross(edge, p - outline[i]) / length(edge));
    }
    return depth;
}

double depth_in(const std::vector<std::vector<Vec2>>& outlines, Vec2 p) {
    double depth = -1e9;
    for (const auto& outline : outlines) depth = std::max(depth, depth_in(outline, p));
    return depth;
}

constexpr scene::CrownForm crown_forms[] = {scene::CrownForm::ellipsoid, scene::CrownForm::cone,
                                            scene::CrownForm::dome, scene::CrownForm::column};

/// One crown without a trunk.
Garden garden_of_crown(scene::CrownForm form) {
    auto tree = tree_at({0.0, 0.0});
    tree.trunk_diameter_m = 0.0;
    tree.crown_form = form;
    return garden_with(tree);
}

}  // namespace

TEST_CASE("a point lies in a drawn shadow when its ray to the sun meets the piece",
          "[geometry][cross]") {
    Dice dice(11);
    int in_shadow = 0;
    int checked = 0;
    for (int garden_number = 0; garden_number < 6; ++garden_number) {
        const auto garden = build_garden(random_scene(dice));
        REQUIRE(garden);
        const Vec3 sun = to_sun(dice.between(10.0, 70.0), dice.between(0.0, 360.0));
        const double level = dice.between(-1.0, 1.0);
        for (const Piece& piece : garden->pieces) {
            const auto outlines = shadow_outlines(piece, sun, level);
            PieceOptics optics;
            optics.k_per_m = 1.0;
            // Crowns are drawn with 128 corners: up to 3 mm short at these sizes.
            const double margin = std::holds_alternative<Crown>(piece.body) ? 5e-3 : 1e-6;
            for (int i = 0; i < 40; ++i) {
                // Thrown from somewhere in the box, so that about half are in the shadow.
                const Vec3 p{dice.between(piece.low.x, piece.high.x),
                             dice.between(piece.low.y, piece.high.y),
                             dice.between(piece.low.z, piece.high.z)};
                const Vec3 at = p - ((p.z - level) / sun.z) * sun;
                // Beyond 4.6 m these laths blur, while each is drawn.
                const bool is_blurred =
                    std::holds_alternative<LathBody>(piece.body) && length(p - at) > 4.0;
                if (is_blurred) continue;
                const double depth = depth_in(outlines, {at.x, at.y});
                if (std::abs(depth) < margin) continue;
                CAPTURE(garden_number, garden->objects[piece.object].id, depth);
                CHECK((depth > 0.0) == pass(piece, optics, at, sun).is_met);
                in_shadow += depth > 0.0 ? 1 : 0;
                ++checked;
            }
        }
    }
    CHECK(checked > 5000);
    CHECK(in_shadow > checked / 5);
}

TEST_CASE("every crown form throws the shadow that its rays see, also when cut by the plane",
          "[geometry][cross]") {
    Dice dice(12);
    for (const auto form : crown_forms) {
        const Garden garden = garden_of_crown(form);
        const Piece& piece = garden.pieces.at(0);
        const PieceOptics optics{true, 1.0};
        int shaded = 0;
        for (int i = 0; i < 600; ++i) {
            const Vec3 sun = to_sun(dice.between(8.0, 89.0), dice.between(0.0, 360.0));
            const double level = i % 2 == 0 ? 0.0 : dice.between(2.5, 8.5);
            const Vec3 p{dice.between(-2.5, 2.5), dice.between(-2.5, 2.5),
                         dice.between(level, 9.0)};
            const Vec3 at = p - ((p.z - level) / sun.z) * sun;
            const double depth = depth_in(shadow_outlines(piece, sun, level), {at.x, at.y});
            // 128 corners; the shadow is up to 7 times longer than the crown is wide.
            if (std::abs(depth) < 0.02) continue;
            CAPTURE(static_cast<int>(form), i, level, depth);
            CHECK((depth > 0.0) == pass(piece, optics, at, sun).is_met);
            shaded += depth > 0.0 ? 1 : 0;
        }
        CHECK(shaded > 150);
    }
}

TEST_CASE("a lath cut by the plane throws its upper half", "[geometry][property]") {
    scene::Scene scene;
    scene.lath_panels.push_back(level_laths(2.0));
    const auto garden = build_garden(scene);
    REQUIRE(garden);
    const auto outlines = shadow_outlines(garden->pieces.at(0), {0.0, 0.0, 1.0}, 2.0);
    REQUIRE(outlines.size() == 38);
    for (const auto& outline : outlines) {
        double area = 0.0;
        for (std::size_t i = 0; i < outline.size(); ++i) {
            area += 0.5 * cross(outline[i], outline[(i + 1) % outline.size()]);
        }
        CHECK(area == Approx(2.0 * 0.04));
    }
    // Low along the laths, the half above the plane reaches 7.5 mm / tan(altitude) farther.
    const auto low = shadow_outlines(garden->pieces[0], to_sun(10.0, 0.0), 2.0);
    REQUIRE_FALSE(low.empty());
    double south = 0.0;
    double north = 0.0;
    for (const Vec2 p : low[0]) {
        south = std::min(south, p.y);
        north = std::max(north, p.y);
    }
    CHECK(north == Approx(2.0));
    CHECK(south == Approx(-0.0075 / std::tan(Angle::degrees(10.0).in_radians())));
}

TEST_CASE("what lies below the plane throws nothing on it", "[geometry][property]") {
    scene::Scene scene;
    scene.trees.push_back(tree_at({0.0, 0.0}));
    const auto garden = build_garden(scene);
    REQUIRE(garden);
    for (const Piece& piece : garden->pieces) {
        CHECK(shadow_outlines(piece, to_sun(30.0, 180.0), 9.1).empty());
        CHECK(shadow_outlines(piece, to_sun(0.0, 180.0), 0.0).empty());
        CHECK(shadow_outlines(piece, to_sun(-5.0, 180.0), 0.0).empty());
    }
}

TEST_CASE("under the zenith a crown throws its own plan, drawn 0.04 % short",
          "[geometry][property]") {
    for (const auto form : crown_forms) {
        const Garden garden = garden_of_crown(form);
        const auto outlines = shadow_outlines(garden.pieces.at(0), {0.0, 0.0, 1.0}, 0.0);
        REQUIRE(outlines.size() == 1);
        double area = 0.0;
        for (std::size_t i = 0; i < outlines[0].size(); ++i) {
            area += 0.5 * cross(outlines[0][i], outlines[0][(i + 1) % outlines[0].size()]);
        }
        CAPTURE(static_cast<int>(form));
        CHECK(area == Approx(std::numbers::pi * 2.5 * 2.0).epsilon(5e-4));
    }
}
