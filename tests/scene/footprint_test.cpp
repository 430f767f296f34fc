#include "sunfleck/scene/footprint.h"

#include "scene/garden_maker.h"
#include "scene/plan_outline.h"

#include <catch2/catch.hpp>

namespace sunfleck::scene {
namespace {

using Cells = std::vector<std::size_t>;

Pot pot_of(double length_m, double width_m, double crown_m) {
    Pot pot;
    pot.pot_length_m = length_m;
    pot.pot_width_m = width_m;
    pot.crown_width_m = crown_m;
    return pot;
}

/// 1.2 x 0.6 m, two rows of four cells of 0.3 m: 0 1 2 3 in front of 4 5 6 7.
std::vector<Spot> two_rows() {
    Scene scene = scene_at(51.5, -0.3, "Europe/London");
    scene.benches = {rectangle_bench(scene, "A", {0, 0}, 90.0, 1.2, 0.6)};
    return spots_of(scene);
}

}  // namespace

TEST_CASE("Pots cover as many cells as pot and crown need", "[scene][property]") {
    const auto spots = two_rows();
    REQUIRE(spots.size() == 8);
    struct Row {
        const char* what;
        Pot pot;
        std::size_t first;
        std::optional<Cells> cells;
    };
    const std::vector<Row> rows{
        {"a shohin takes one", pot_of(0.11, 0.09, 0.18), 1, Cells{1}},
        {"a pot of the cell's size fits", pot_of(0.30, 0.30, 0.30), 5, Cells{5}},
        {"a crown wider than the cell takes the next", pot_of(0.20, 0.15, 0.32), 1, Cells{1, 2}},
        {"not past the end of the row", pot_of(0.20, 0.15, 0.32), 3, std::nullopt},
        {"a deep crown takes the row behind", pot_of(0.34, 0.25, 0.50), 0, Cells{0, 1, 4, 5}},
        {"from the back row nothing is behind", pot_of(0.34, 0.25, 0.50), 4, std::nullopt},
        {"a deep pot takes the row behind", pot_of(0.25, 0.40, 0.0), 2, Cells{2, 6}},
        {"a huge crown takes all there is", pot_of(0.5, 0.5, 3.0), 0,
         Cells{0, 1, 2, 3, 4, 5, 6, 7}},
        {"a pot longer than the bench fits nowhere", pot_of(1.3, 0.3, 0.3), 0, std::nullopt},
        {"a pot deeper than the bench fits nowhere", pot_of(0.3, 0.7, 0.3), 0, std::nullopt},
    };
    for (const Row& row : rows) {
        CAPTURE(row.what);
        CHECK((cells_covered(row.pot, spots, row.first) == row.cells));
    }
}

TEST_CASE("A pot that stands crowded holds the cells under it", "[scene][property]") {
    const auto spots = two_rows();
    const Footprints footprints(spots);
    const Pot wide_crown = pot_of(0.20, 0.15, 0.32);
    CHECK((footprints.cells_held(wide_crown, 1) == Cells{1, 2}));
    CHECK((footprints.cells_held(wide_crown, 3) == Cells{3}));
    CHECK_FALSE(footprints.cells_held(pot_of(0.40, 0.15, 0.32), 3));
}

TEST_CASE("The centre of a wide pot is the middle of its cells", "[scene][property]") {
    const auto spots = two_rows();
    const Footprints footprints(spots);
    const auto cells = footprints.cells_covered(pot_of(0.34, 0.25, 0.50), 1);
    REQUIRE(cells);
    CHECK(length(footprints.centre(*cells) - Vec2{0.6, 0.3}) < 1e-12);
}

TEST_CASE("Stands and hand-placed spots hold one pot, whatever its crown", "[scene][property]") {
    Scene scene = scene_at(51.5, -0.3, "Europe/London");
    Bench bench = rectangle_bench(scene, "C", {0, 0}, 90.0, 1.0, 0.4);
    bench.explicit_spots = {{.along_m = 0.25, .from_front_m = 0.2},
                            {.along_m = 0.75, .from_front_m = 0.2}};
    scene.benches = {bench};
    PostStand stand;
    stand.label = {"P", "Post", ""};
    stand.top_side_m = 0.35;
    scene.post_stands = {stand};
    const auto spots = spots_of(scene);
    CHECK((cells_covered(pot_of(0.45, 0.3, 1.5), spots, 0) == Cells{0}));
    CHECK_FALSE(cells_covered(pot_of(0.55, 0.3, 0.2), spots, 0));
    CHECK((cells_covered(pot_of(0.35, 0.35, 1.5), spots, 2) == Cells{2}));
    CHECK_FALSE(cells_covered(pot_of(0.36, 0.35, 0.3), spots, 2));
}

TEST_CASE("A wide pot does not reach across a break in its row", "[scene][property]") {
    Scene scene = scene_at(51.5, -0.3, "Europe/London");
    Bench bench =
        outline_bench(scene, "U", {{0, 0}, {5, 0}, {5, 2}, {3, 2}, {3, 1}, {1, 1}, {1, 2}, {0, 2}});
    bench.spot_pitch_m = 1.0;
    scene.benches = {bench};
    const auto spots = spots_of(scene);
    REQUIRE(spots.size() == 8);
    const Pot wide = pot_of(1.5, 0.9, 0.9);
    CHECK((cells_covered(wide, spots, 0) == Cells{0, 1}));
    CHECK_FALSE(cells_covered(wide, spots, 5));  // alone on the left arm
    CHECK((cells_covered(wide, spots, 6) == Cells{6, 7}));
    CHECK((cells_covered(pot_of(0.9, 1.5, 0.9), spots, 0) == Cells{0, 5}));
    CHECK_FALSE(cells_covered(pot_of(0.9, 1.5, 0.9), spots, 1));  // only the gap behind
}

TEST_CASE("Random pots lie on their cells; a smaller pot never needs more", "[scene][property]") {
    Dice dice(8);
    for (int round = 0; round < 200; ++round) {
        Scene scene = scene_at(51.5, -0.3, "Europe/London");
        Bench bench = rectangle_bench(scene, "R", {1, 2}, 90.0, dice.between(0.3, 3.0),
                                      dice.between(0.3, 1.2));
        bench.spot_pitch_m = dice.between(0.15, 0.5);
        scene.benches = {bench};
        const auto spots = spots_of(scene);
        const Footprints footprints(spots);
        const auto first =
            static_cast<std::size_t>(dice.whole(0, static_cast<int>(spots.size()) - 1));
        const Pot pot =
            pot_of(dice.between(0.05, 0.7), dice.between(0.05, 0.5), dice.between(0.05, 1.0));
        const auto cells = footprints.cells_covered(pot, first);
        CAPTURE(round, bench.length_m, bench.depth_m, bench.spot_pitch_m);
        if (!cells) continue;
        CHECK(cells->front() == first);
        // Front edge along plan x, so the pot is a plain box about the centre.
        const Vec2 centre = footprints.centre(*cells);
        for (const Vec2 corner :
             rectangle_about(centre, {1, 0}, 0.999 * pot.pot_length_m, 0.999 * pot.pot_width_m)) {
            CHECK(is_inside(bench.outline, corner));
        }
        const Pot smaller =
            pot_of(0.8 * pot.pot_length_m, 0.8 * pot.pot_width_m, 0.8 * pot.crown_width_m);
        const auto fewer = footprints.cells_covered(smaller, first);
        REQUIRE(fewer);
        CHECK(fewer->size() <= cells->size());
    }
}

}  // namespace sunfleck::scene
