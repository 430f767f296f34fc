#include "sunfleck/document/document.h"

#include "base/scratch_folder.h"
#include "document/small_document.h"
#include "sunfleck/base/text_file.h"
#include "sunfleck/document/thing_edits.h"

#include <catch2/catch.hpp>

#include <random>

using namespace sunfleck;
using namespace sunfleck::test;
using document::Command;
using document::Document;
using document::OnDisk;

namespace {

// Something at random that a hand on the mouse may ask for, sensible or not.
Command random_command(const Document& document, std::mt19937_64& bits) {
    const auto below = [&](std::size_t n) { return static_cast<std::size_t>(bits() % n); };
    const auto number = [&](double low, double high) {
        return low + (high - low) * static_cast<double>(bits() % 10000U) / 10000.0;
    };
    const char* lists[] = {"/benches/", "/walls/", "/trees/", "/post_stands/", "/pots/"};
    const std::string thing = lists[below(5)] + std::to_string(below(4));
    const auto& pots = document.scene().pots;
    const std::string pot = pots.empty() ? "none" : pots[below(pots.size())].label.id;
    switch (below(9)) {
        case 0:
        case 1:
            return document::move_thing(document, thing, {number(-1, 1), number(-1, 1)});
        case 2:
            return document::turn_thing(document, thing, {1.0, 2.0}, Angle::degrees(number(0, 40)));
        case 3:
            return document::repeat_thing(document, thing, 1, {number(0.5, 2), number(0.5, 2)});
        case 4:
            return document::remove_thing(document, thing);
        case 5:
            return document::place_pot(document, pot,
                                       below(3) == 0 ? "" : "A-" + std::to_string(below(9)));
        case 6:
            return document::pin_pot(document, pot, below(2) == 0);
        case 7:
            return document::set_number(document, "/trees/0/height_m", number(-1, 12));
        default:
            return document::rename_thing(document, thing, document::free_id(document, "B"));
    }
}

}  // namespace

TEST_CASE("a command is taken back and done again to the byte", "[document][property]") {
    Document document = small_document();
    const std::string first = document.text();
    run(document, document::move_thing(document, "/benches/0", {0.5, 0.25}));
    const std::string moved = document.text();
    CHECK(moved != first);
    REQUIRE(document.undo_name());
    CHECK(*document.undo_name() == "Move First bench");
    CHECK(document.undo());
    CHECK(document.text() == first);
    CHECK(document.undo_name() == nullptr);
    CHECK_FALSE(document.undo());
    REQUIRE(document.redo_name());
    CHECK(document.redo());
    CHECK(document.text() == moved);
    CHECK_FALSE(document.redo());
}

TEST_CASE("a command that would spoil the garden changes nothing", "[document][property]") {
    Document document = small_document();
    const std::string first = document.text();
    const auto revision = document.revision();
    const auto done = document.apply(document::set_number(document, "/benches/0/height_m", 99.0));
    REQUIRE_FALSE(done);
    CHECK(done.error().front().pointer == "/benches/0/height_m");
    CHECK_FALSE(done.error().front().mend.empty());
    CHECK(document.text() == first);
    CHECK(document.revision() == revision);
    CHECK(document.undo_name() == nullptr);
}

TEST_CASE("one drag is undone as one, two drags as two", "[document][property]") {
    Document document = small_document();
    const std::string first = document.text();
    for (int i = 0; i < 20; ++i) {
        run(document, document::move_thing(document, "/benches/0", {0.05, 0.0}));
    }
    const std::string dragged = document.text();
    document.end_strand();
    for (int i = 0; i < 20; ++i) {
        run(document, document::move_thing(document, "/benches/0", {0.0, 0.05}));
    }
    CHECK(document.undo());
    CHECK(document.text() == dragged);
    CHECK(document.undo());
    CHECK(document.text() == first);
    CHECK_FALSE(document.undo());
}

TEST_CASE("a drag that ends where it began leaves the garden as it was", "[document][property]") {
    Document document = small_document();
    const std::string first = document.text();
    run(document, document::move_thing(document, "/benches/0", {0.5, 0.0}));
    run(document, document::move_thing(document, "/benches/0", {-0.5, 0.0}));
    CHECK(document.scene().benches[0].outline[0].x ==
          Approx(small_document().scene().benches[0].outline[0].x));
    document.undo();
    CHECK(document.text() == first);
}

TEST_CASE("a new command after an undo ends what could be done again", "[document][property]") {
    Document document = small_document();
    run(document, document::move_thing(document, "/benches/0", {0.5, 0.0}));
    document.undo();
    run(document, document::move_thing(document, "/trees/0", {0.5, 0.0}));
    CHECK(document.redo_name() == nullptr);
    CHECK_FALSE(document.redo());
}

TEST_CASE("whatever is done can all be undone and done again", "[document][property]") {
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        std::mt19937_64 bits(seed);
        Document document = small_document();
        const std::string first = document.text();
        int done = 0;
        int refused = 0;
        for (int i = 0; i < 250; ++i) {
            const std::size_t chance = bits() % 10U;
            if (chance == 0) {
                document.undo();
            } else if (chance == 1) {
                document.redo();
            } else if (chance == 2) {
                document.end_strand();
            } else {
                const std::string before = document.text();
                if (document.apply(random_command(document, bits))) {
                    ++done;
                } else {
                    ++refused;
                    REQUIRE(document.text() == before);
                }
            }
        }
        CAPTURE(seed, done, refused);
        CHECK(done > 40);
        CHECK(refused > 0);
        while (document.redo()) continue;
        const std::string last = document.text();
        CHECK(scene::SceneFile::parse(last, "last.json"));
        while (document.undo()) continue;
        CHECK(document.text() == first);
        while (document.redo()) continue;
        CHECK(document.text() == last);
    }
}

TEST_CASE("keeping writes the very text, and opening reads it", "[document][property]") {
    const ScratchFolder folder;
    const auto path = folder / "yard.json";
    Document document = small_document();
    CHECK_FALSE(document.is_kept());
    REQUIRE_FALSE(document.keep());
    CHECK(document.keep().error().front().code == "no_path");
    REQUIRE(document.keep_as(path));
    CHECK(document.is_kept());
    CHECK(document.on_disk() == OnDisk::as_kept);
    run(document, document::move_thing(document, "/benches/0", {0.5, 0.0}));
    CHECK_FALSE(document.is_kept());
    REQUIRE(document.keep());
    auto opened = Document::open(path);
    REQUIRE(opened);
    CHECK(opened->text() == document.text());
    CHECK(opened->is_kept());
    CHECK(document.undo());
    CHECK_FALSE(document.is_kept());
    CHECK(document.redo());
    CHECK(document.is_kept());
}

TEST_CASE("a file changed elsewhere is not written over unasked", "[document][property]") {
    const ScratchFolder folder;
    const auto path = folder / "yard.json";
    Document mine = small_document();
    REQUIRE(mine.keep_as(path));
    auto other = Document::open(path);
    REQUIRE(other);
    run(*other, document::move_thing(*other, "/benches/0", {0.5, 0.0}));
    REQUIRE(other->keep());
    CHECK(mine.on_disk() == OnDisk::changed_elsewhere);
    run(mine, document::move_thing(mine, "/benches/0", {0.0, 0.5}));
    const auto refused = mine.keep();
    REQUIRE_FALSE(refused);
    CHECK(refused.error().front().code == "changed_elsewhere");
    CHECK(*read_text_file(path) == other->text());
    REQUIRE(mine.keep(document::IfChanged::replace));
    CHECK(*read_text_file(path) == mine.text());
    std::filesystem::remove(path);
    CHECK(mine.on_disk() == OnDisk::gone);
    REQUIRE(mine.keep());
    CHECK(mine.on_disk() == OnDisk::as_kept);
}

TEST_CASE("a scene with faults is told and not opened", "[document][property]") {
    const ScratchFolder folder;
    const auto path = folder / "broken.json";
    REQUIRE(save_text_file(path, "{\"format\": \"sunfleck-scene\""));
    const auto opened = Document::open(path);
    REQUIRE_FALSE(opened);
    CHECK(opened.error().front().line == 1);
    CHECK_FALSE(Document::open(folder / "missing.json"));
}

TEST_CASE("a whole text is taken and taken back as one", "[document][property]") {
    Document document = small_document();
    const std::string first = document.text();
    Document other = small_document();
    run(other, document::move_thing(other, "/benches/0", {0.5, 0.0}));
    REQUIRE(document.take_text(other.text(), "Take what was found"));
    CHECK(document.text() == other.text());
    CHECK(*document.undo_name() == "Take what was found");
    CHECK_FALSE(document.take_text("{", "Take nonsense"));
    CHECK(document.text() == other.text());
    CHECK(document.undo());
    CHECK(document.text() == first);
}
