#pragma once

#include "rays/day_frames.h"

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// The inner loops, built for several instruction sets. Every lane does the same single precision
/// operations (+ - x / sqrt, comparisons) in the same order on each of them, so that the answers
/// are the same bytes.
namespace sunfleck::rays {

/// A convex cone from the spot: a direction d is inside when dot(normal, d) <= 0 for all planes.
/// The normals need not have unit length.
struct ConePlanes {
    static constexpr int most = 32;
    int count = 0;
    std::array<float, most> x{};
    std::array<float, most> y{};
    std::array<float, most> z{};
    std::array<float, most> size{};  ///< length of the normal
    /// The plane cuts a day's circle where cos(H - middle) = slope * tan(declination), H hour
    /// angle; the arc inside lies around `middle`.
    std::array<float, most> slope{};
    std::array<float, most> middle{};
    std::array<float, most> spread{};  ///< size over the normal's part square to the pole
};

/// What a day's sun does in a cone.
enum class CrossingKind : std::int32_t {
    none = 0,
    spans,    ///< inside in the two spans (either may be empty)
    unclear,  ///< may be inside between `from` and `to`: follow it step by step
};

/// For each day: ticks at which the sun enters and leaves, or samples between which to look.
struct ConeCrossings {
    std::vector<std::int32_t> kind;
    std::vector<std::int32_t> from;
    std::vector<std::int32_t> to;
    std::vector<std::int32_t> second_from;
    std::vector<std::int32_t> second_to;
    std::vector<std::uint8_t> any;  ///< one for each group of days_at_once
    void resize(std::size_t padded_days);
};

struct LightKernels {
    std::string name;
    /// The days of the groups; writes nothing for others.
    void (*cross_cone)(const ConePlanes& cone, const DayFrames& frames,
                       std::span<const std::uint16_t> groups, ConeCrossings& out) = nullptr;
    /// For each step from sample i to i + 1, i in [from, to): the ticks 0 to 32 between which the
    /// straight way from one to the other is inside; equal when nowhere. `directions` are the
    /// day's. Writes up to 15 steps more.
    void (*follow_cone)(const ConePlanes& cone, const float* directions, int from, int to,
                        std::uint8_t* enters, std::uint8_t* leaves) = nullptr;
};

/// By name; the widest when it is empty.
[[nodiscard]] const LightKernels& light_kernels(std::string_view name = {});
[[nodiscard]] const std::vector<LightKernels>& all_light_kernels();

}  // namespace sunfleck::rays
