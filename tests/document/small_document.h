#pragma once

#include "sunfleck/document/document.h"
#include "sunfleck/scene/new_scene.h"

#include <catch2/catch.hpp>

#include <string>

namespace sunfleck::test {

/// A first garden: a bench, a wall, a tree and three pots.
inline document::Document small_document() {
    auto made =
        document::Document::from_text(scene::first_scene_text({.name = "Back yard",
                                                               .latitude_deg = 51.5,
                                                               .longitude_deg = -0.3,
                                                               .time_zone = "Europe/London",
                                                               .plan_up_bearing_deg = 20.0}));
    REQUIRE(made);
    return std::move(*made);
}

inline void run(document::Document& document, const document::Command& command) {
    const auto done = document.apply(command);
    if (!done) FAIL(to_text(done.error().front()));
}

}  // namespace sunfleck::test
