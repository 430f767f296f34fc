#include "sunfleck/document/thing_edits.h"

#include "base/within.h"
#include "document/small_document.h"
#include "sunfleck/base/text_file.h"
#include "sunfleck/scene/spots.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace sunfleck;
using namespace sunfleck::test;
using document::Document;

namespace {

Document every_key() {
    auto text = read_text_file(SUNFLECK_TEST_DATA "/every_key.json");
    REQUIRE(text);
    auto document = Document::from_text(*text, SUNFLECK_TEST_DATA "/every_key.json");
    REQUIRE(document);
    return std::move(*document);
}

void check_moved(Vec2 before, Vec2 after, Vec2 by) {
    CHECK(after.x == within(before.x + by.x, 1e-9));
    CHECK(after.y == within(before.y + by.y, 1e-9));
}

}  // namespace

TEST_CASE("every kind of thing moves by what is asked", "[document][property]") {
    const Document still = every_key();
    const Vec2 by{0.25, -0.1};
    const auto moved = [&](const char* pointer) {
        Document document = every_key();
        run(document, document::move_thing(document, pointer, by));
        return document.scene();
    };
    const scene::Scene& old = still.scene();
    for (const char* pointer : {"/benches/0", "/benches/1", "/benches/2"}) {
        const auto index = static_cast<std::size_t>(pointer[9] - '0');
        const auto now = moved(pointer);
        for (std::size_t i = 0; i < old.benches[index].outline.size(); ++i) {
            check_moved(old.benches[index].outline[i], now.benches[index].outline[i], by);
        }
    }
    check_moved(old.post_stands[0].position, moved("/post_stands/0").post_stands[0].position, by);
    check_moved(old.walls[0].line[1], moved("/walls/0").walls[0].line[1], by);
    check_moved(old.walls[1].line[0], moved("/fences/0").walls[1].line[0], by);
    check_moved(old.buildings[0].outline[2], moved("/buildings/0").buildings[0].outline[2], by);
    check_moved(old.buildings[1].outline[2], moved("/buildings/1").buildings[1].outline[2], by);
    check_moved(old.cloths[0].corners[3].position, moved("/cloths/0").cloths[0].corners[3].position,
                by);
    CHECK(old.cloths[0].corners[3].height.value_m ==
          within(moved("/cloths/0").cloths[0].corners[3].height.value_m, 0.0));
    check_moved(old.lath_panels[0].corner, moved("/lath_panels/0").lath_panels[0].corner, by);
    check_moved(old.trees[0].position, moved("/trees/0").trees[0].position, by);
    check_moved(old.meshes[0].position, moved("/meshes/0").meshes[0].position, by);
    CHECK(document::move_thing(still, "/trees/99", by).steps.empty());
}

TEST_CASE("a bench turned keeps its shape and its distance", "[document][property]") {
    const Document still = every_key();
    const scene::Bench& old = still.scene().benches[0];
    Document document = every_key();
    const Vec2 about = old.outline[0];
    run(document, document::turn_thing(document, "/benches/0", about, Angle::degrees(30.0)));
    const scene::Bench& now = document.scene().benches[0];
    check_moved(old.outline[0], now.outline[0], {});
    CHECK(now.bearing.in_degrees() == within(old.bearing.in_degrees() + 30.0, 0.006));
    for (std::size_t i = 1; i < 4; ++i) {
        const Vec2 before = old.outline[i] - about;
        const Vec2 after = now.outline[i] - about;
        CHECK(length(after) == within(length(before), 1e-9));
        // Clockwise: to the right of where it was.
        CHECK(std::atan2(cross(before, after), dot(before, after)) ==
              within(-Angle::degrees(30.0).in_radians(), 1e-4));
    }
}

TEST_CASE("what lies up the plan from the middle turns clockwise to its right",
          "[document][property]") {
    Document document = every_key();
    const Vec2 about = document.scene().trees[0].position - Vec2{0.0, 2.0};
    run(document, document::turn_thing(document, "/trees/0", about, Angle::degrees(90.0)));
    CHECK(document.scene().trees[0].position.x == within(about.x + 2.0, 0.001));
    CHECK(document.scene().trees[0].position.y == within(about.y, 0.001));
}

TEST_CASE("twelve turns of 30 degrees bring everything back", "[document][property]") {
    const Document still = every_key();
    for (const char* pointer : {"/benches/2", "/post_stands/1", "/post_stands/2", "/walls/0",
                                "/cloths/1", "/lath_panels/2", "/trees/1", "/meshes/1"}) {
        Document document = every_key();
        for (int i = 0; i < 12; ++i) {
            // A turn on the way may bring it into another thing.
            const auto done = document.apply(
                document::turn_thing(document, pointer, {40.0, 40.0}, Angle::degrees(30.0)));
            CAPTURE(pointer, i);
            REQUIRE(done);
        }
        const auto before = [&](const scene::Scene& s) {
            return std::vector<Vec2>{s.benches[2].outline[0],
                                     s.post_stands[1].position,
                                     s.post_stands[2].position,
                                     s.walls[0].line[0],
                                     s.cloths[1].corners[0].position,
                                     s.lath_panels[2].corner,
                                     s.trees[1].position,
                                     s.meshes[1].position};
        };
        const auto was = before(still.scene());
        const auto is = before(document.scene());
        for (std::size_t i = 0; i < was.size(); ++i) {
            CHECK(is[i].x == within(was[i].x, 0.012));
            CHECK(is[i].y == within(was[i].y, 0.012));
        }
    }
}

TEST_CASE("a row of posts stands evenly under names of its own", "[document][property]") {
    Document document = every_key();
    const std::size_t count = document.scene().post_stands.size();
    const Vec2 first = document.scene().post_stands[0].position;
    run(document, document::repeat_thing(document, "/post_stands/0", 5, {-1.4, -1.4}));
    const auto& stands = document.scene().post_stands;
    REQUIRE(stands.size() == count + 5);
    for (std::size_t i = 1; i <= 5; ++i) {
        check_moved(first, stands[i].position,
                    {-1.4 * static_cast<double>(i), -1.4 * static_cast<double>(i)});
        CHECK(stands[i].label.name == "Post " + std::to_string(i + 1));
        CHECK(stands[i].label.id == "P" + std::to_string(i + 3));
    }
}

TEST_CASE("a bench taken away leaves its pots on the ground", "[document][property]") {
    Document document = every_key();
    REQUIRE(document.scene().pots[0].spot == "A-3");
    run(document, document::remove_thing(document, "/benches/0"));
    CHECK(document.scene().benches.size() == 3);
    CHECK(document.scene().pots[0].spot.empty());
    CHECK(document.scene().pots[0].not_on == std::vector<std::string>{"B"});
    run(document, document::remove_thing(document, "/post_stands/0"));
    CHECK(document.scene().pots[1].spot.empty());
    CHECK_FALSE(document.scene().pots[1].pinned);
}

TEST_CASE("pots follow a bench to its new id", "[document][property]") {
    Document document = every_key();
    run(document, document::rename_thing(document, "/benches/0", "Row"));
    CHECK(document.scene().pots[0].spot == "Row-3");
    CHECK(document.scene().pots[0].not_on == std::vector<std::string>{"B", "Row-1"});
    run(document, document::rename_thing(document, "/post_stands/0", "Q1"));
    CHECK(document.scene().pots[1].spot == "Q1");
}

TEST_CASE("a pot is placed, taken off and pinned", "[document][property]") {
    Document document = small_document();
    const std::string pot = document.scene().pots[0].label.id;
    run(document, document::place_pot(document, pot, "A-6"));
    CHECK(document.scene().pots[0].spot == "A-6");
    run(document, document::pin_pot(document, pot, true));
    CHECK(document.scene().pots[0].pinned);
    run(document, document::place_pot(document, pot, ""));
    CHECK(document.scene().pots[0].spot.empty());
    CHECK_FALSE(document.scene().pots[0].pinned);
    CHECK_FALSE(document.apply(document::place_pot(document, pot, "Z-1")));
    CHECK(document::place_pot(document, "nobody", "A-1").steps.empty());
}

TEST_CASE("a free id goes on counting", "[document][property]") {
    const Document document = every_key();
    CHECK(document::free_id(document, "P1") == "P4");
    CHECK(document::free_id(document, "Z") == "Z");
    CHECK(document::free_id(document, "A") == "E");
    CHECK(document::free_id(document, "Row") == "Row2");
}
