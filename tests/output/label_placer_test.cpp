#include "sunfleck/output/label_placer.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::output;

TEST_CASE("a name takes its first free place", "[output][property]") {
    const auto canvas = raster_canvas({400.0, 400.0}, 1.0);
    LabelPlacer labels(*canvas, box_at({0, 0}, 400, 400));
    labels.avoid(box_at({80, 80}, 40, 40));
    const std::vector<LabelPlacer::Place> places{{{100, 100}}, {{200, 100}}, {{300, 100}}};
    CHECK(labels.take(30, 16, places).centre() == SheetPoint{200, 100});
    CHECK(labels.take(30, 16, places).centre() == SheetPoint{300, 100});
}

TEST_CASE("a name leaves the panel last of all", "[output][property]") {
    const auto canvas = raster_canvas({400.0, 400.0}, 1.0);
    LabelPlacer labels(*canvas, box_at({0, 0}, 400, 400));
    labels.avoid(box_at({100, 100}, 200, 200), 4.0);
    const std::vector<LabelPlacer::Place> places{{{0, 0}}, {{200, 200}}};
    CHECK(labels.take(60, 20, places).centre() == SheetPoint{200, 200});
}

TEST_CASE("a slip lies near its thing and covers nothing", "[output][property]") {
    const auto canvas = raster_canvas({600.0, 600.0}, 1.0);
    LabelPlacer labels(*canvas, box_at({0, 0}, 600, 600));
    const SheetBox bench = box_at({300, 300}, 100, 30);
    const SheetBox other = box_at({280, 200}, 200, 80);
    labels.avoid(bench, 3.0);
    labels.avoid(other, 3.0);
    const auto found = labels.take_near(120, 90, bench);
    REQUIRE(found);
    const SheetBox& slip = *found;
    CHECK_FALSE(shared_area(slip, bench) > 0.0);
    CHECK_FALSE(shared_area(slip, other) > 0.0);
    CHECK(distance(slip.centre(), bench.centre()) < 140.0);

    // Where all is taken there is no slip, instead of one over other things.
    labels.avoid(box_at({0, 0}, 600, 290), 3.0);
    labels.avoid(box_at({0, 340}, 600, 260), 3.0);
    CHECK_FALSE(labels.take_near(120, 90, bench));
}

TEST_CASE("a turned name stands upright in its place", "[output][property]") {
    const auto canvas = svg_canvas({400.0, 400.0}, 1.0, "sheet");
    LabelPlacer labels(*canvas, box_at({0, 0}, 400, 400));
    labels.write("East fence", {{{200, 200}, 1}}, {.size = 13.0});
    CHECK(canvas->finish().value().find("rotate(-90 ") != std::string::npos);
}
