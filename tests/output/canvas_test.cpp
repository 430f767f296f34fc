#include "sunfleck/output/canvas.h"

#include "output/pixels.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::output;

TEST_CASE("text is cut to its room and the cut shows", "[output][property]") {
    const auto canvas = raster_canvas({100.0, 100.0}, 1.0);
    const std::string name = "A name of forty letters, öäü 桜 and more";
    const double whole = canvas->text_width(name, 13.0, false);
    CHECK(canvas->cut_text(name, 13.0, false, whole + 1.0) == name);
    for (double room = 4.0; room < whole; room += 17.0) {
        CAPTURE(room);
        const std::string cut = canvas->cut_text(name, 13.0, false, room);
        CHECK(canvas->text_width(cut, 13.0, false) <= room);
        const bool is_marked = cut.empty() || cut.find("…") == cut.size() - 3;
        CHECK(is_marked);
    }
}

TEST_CASE("text is as wide at every scale", "[output][property]") {
    const auto at_1x = raster_canvas({100.0, 100.0}, 1.0);
    const auto at_3x = raster_canvas({100.0, 100.0}, 3.0);
    CHECK(at_1x->text_width("Long bench 12", 13.0, true) ==
          Approx(at_3x->text_width("Long bench 12", 13.0, true)));
    CHECK(at_1x->text_width("Long bench 12", 26.0, true) ==
          Approx(2.0 * at_1x->text_width("Long bench 12", 13.0, true)).epsilon(0.01));
}

TEST_CASE("a group is laid on the sheet as one", "[output][property]") {
    const auto canvas = raster_canvas({60.0, 20.0}, 1.0);
    canvas->fill(rectangle(box_at({0, 0}, 60, 20)), morning.page);
    {
        const GroupScope group(*canvas, 0.5);
        canvas->fill(rectangle(box_at({0, 0}, 40, 20)), morning.ink);
        canvas->fill(rectangle(box_at({20, 0}, 40, 20)), morning.ink);
    }
    const test::Pixels pixels(canvas->finish().value());
    CHECK(pixels.at(10, 10) == pixels.at(30, 10));
    CHECK(pixels.at(10, 10) == pixels.at(50, 10));
    CHECK(pixels.at(10, 10) != morning.ink);
}

TEST_CASE("a sheet too large for the library is a problem, not a crash", "[output][property]") {
    const auto canvas = raster_canvas({40000.0, 40000.0}, 1.0);
    canvas->fill(rectangle(box_at({0, 0}, 10, 10)), morning.ink);
    const auto bytes = canvas->finish();
    REQUIRE_FALSE(bytes);
    CHECK(bytes.error().front().code == "picture_not_drawn");
}
