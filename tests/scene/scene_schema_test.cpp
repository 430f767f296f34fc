#include "sunfleck/scene/scene_schema.h"

#include "sunfleck/base/text_file.h"

#include <catch2/catch.hpp>

#include <string>

TEST_CASE("the published schema is the one the reader's table makes", "[scene][golden]") {
    // After a change of the table: sunfleck schema > scenes/sunfleck-scene.schema.json
    const auto published =
        sunfleck::read_text_file(std::string(SUNFLECK_SCENES) + "/sunfleck-scene.schema.json");
    REQUIRE(published);
    CHECK(*published == sunfleck::scene::scene_schema());
}
