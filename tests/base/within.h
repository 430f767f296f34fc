#pragma once

#include <catch2/catch.hpp>

namespace sunfleck::test {

/// Equals `expected` up to `margin` either way and nothing more. Catch's own Approx also lets
/// pass whatever differs by less than 0.0012 %, however small the margin.
[[nodiscard]] inline Catch::Detail::Approx within(double expected, double margin) {
    return Catch::Detail::Approx(expected).epsilon(0.0).margin(margin);
}

}  // namespace sunfleck::test
