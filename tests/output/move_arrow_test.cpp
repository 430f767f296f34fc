#include "output/move_arrow.h"

#include "base/within.h"

#include <catch2/catch.hpp>

using namespace sunfleck;
using namespace sunfleck::output;
using sunfleck::test::within;

TEST_CASE("a way bulges to the right of who walks it", "[output][property]") {
    // Eastwards on the sheet: right is down, where y grows.
    const MoveArrow east{.from = {0, 0}, .to = {100, 0}};
    const SheetPoint control = arrow_control(east);
    CHECK(control.x == Approx(50.0));
    // The curve's middle lies half as far out as its control: 0.16 of the length.
    CHECK(0.5 * control.y == Approx(16.0));
    const MoveArrow up{.from = {0, 100}, .to = {0, 0}};
    CHECK(arrow_control(up).x == Approx(32.0));
}

TEST_CASE("the two ways of a swap form a lens", "[output][property]") {
    const MoveArrow there{.from = {0, 0}, .to = {80, 60}, .is_swap = true};
    const MoveArrow back{.from = {80, 60}, .to = {0, 0}, .is_swap = true};
    const SheetPoint apart = arrow_control(there) - arrow_control(back);
    // Twice 0.30 of the length, on either side of the straight way.
    CHECK(0.5 * distance(arrow_control(there), arrow_control(back)) == Approx(60.0));
    CHECK(apart.x * 80.0 + apart.y * 60.0 == within(0.0, 1e-9));
}

TEST_CASE("a way of no length is drawn without fault", "[output][property]") {
    const auto canvas = svg_canvas({100.0, 100.0}, 1.0, "sheet");
    draw_move_arrow(*canvas, {.from = {50, 50}, .to = {50, 50}});
    draw_bead(*canvas, {50, 50}, 123);
    const std::string svg = canvas->finish().value();
    CHECK(svg.find(">123</text>") != std::string::npos);
    CHECK(svg.find("nan") == std::string::npos);
}

TEST_CASE("two people's way is a double line", "[output][property]") {
    const auto strokes = [](bool needs_two) {
        const auto canvas = svg_canvas({100.0, 100.0}, 1.0, "sheet");
        draw_move_arrow(*canvas, {.from = {10, 50}, .to = {90, 50}, .needs_two = needs_two});
        const std::string svg = canvas->finish().value();
        int count = 0;
        for (auto at = svg.find("stroke="); at != std::string::npos;
             at = svg.find("stroke=", at + 1)) {
            ++count;
        }
        return count;
    };
    CHECK(strokes(true) == strokes(false) + 1);
}
