#include "rays/embree_mesh.h"

#include "rays/light_cases.h"

#include <catch2/catch.hpp>
#include <tbb/global_control.h>

using namespace sunfleck;
using namespace sunfleck::test;

TEST_CASE("A mesh leaves the others their threads", "[rays][property]") {
    const auto threads = [] {
        return tbb::global_control::active_value(tbb::global_control::max_allowed_parallelism);
    };
    const std::size_t before = threads();
    const geometry::Piece piece = pyramid_mesh({0.0, 0.0, 0.0}, 1.0, 2.0);
    const rays::EmbreeMesh mesh(std::get<geometry::MeshBody>(piece.body));
    CHECK(threads() == before);
}
