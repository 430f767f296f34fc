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
    static constexpr int most = 32;  ///< a multiple of 16
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
    /// Of spans: samples between which they must be followed step by step; none when not before.
    std::vector<std::int32_t> touch_from;
    std::vector<std::int32_t> touch_to;
    std::vector<std::uint8_t> any;  ///< one for each group of days_at_once
    void resize(std::size_t padded_days);
};

struct ConeKernels {
    /// Fills the rest of `cone` from its normals.
    void (*set_arcs)(const DayFrames& frames, ConePlanes& cone) = nullptr;
    /// The days of the groups; writes nothing for others.
    void (*cross_cone)(const ConePlanes& cone, const DayFrames& frames,
                       std::span<const std::uint16_t> groups, ConeCrossings& out) = nullptr;
    /// For each step from sample i to i + 1, i in [from, to): the ticks 0 to 32 between which the
    /// straight way from one to the other is inside; equal when nowhere. `directions` are the
    /// day's rows. Writes up to 15 steps more.
    void (*follow_cone)(const ConePlanes& cone, const float* directions, int from, int to,
                        std::uint8_t* enters, std::uint8_t* leaves) = nullptr;
};

enum class CrownShape { ellipsoid, dome, cone, column };

/// A crown as seen from a spot. In the crown's own frame (see geometry/crown_shape.cpp) the spot
/// is at `place` and a ray's direction d is at turn d. An ellipsoid's ray is
///   |place + t turn d| = 1, which it meets ahead where |turn d|^2 > |arm d|^2,
/// arm d = place x (turn d): a form in which nothing cancels far away.
struct CrownView {
    CrownShape shape = CrownShape::ellipsoid;
    bool is_within = false;  ///< the spot is in the ellipsoid that bounds the crown
    std::array<float, 3> place{};
    std::array<float, 9> turn{};
    std::array<float, 9> arm{};
    // The ball around it: its middle's hour angle, sine and cosine of its declination, and the
    // cosine and the size of the angle that it fills to each side.
    float middle = 0.0F;
    float sine = 0.0F;
    float cosine = 1.0F;
    float reach = 0.0F;  ///< radians; from 1.4 on: all round
};

/// Places on a panel at which the light is taken.
inline constexpr std::size_t panel_nodes = 8;

/// A stretch of a day behind crowns, short enough for one set of nodes.
struct LightPanel {
    const float* directions = nullptr;  ///< the day's rows
    float from_tick = 0.0F;
    float to_tick = 0.0F;
};

/// A crown before the sun on a panel, and how thick it is that day.
struct PanelLayer {
    std::uint32_t panel = 0;
    float k_per_m = 0.0F;
    const CrownView* crown = nullptr;
};

/// Room for panels' nodes.
struct PanelRoom {
    std::vector<float> x;  ///< of the sun, by panel and node
    std::vector<float> y;
    std::vector<float> z;
    std::vector<float> depth;  ///< sum of k times path
};

struct CrownKernels {
    /// As cross_cone, for an ellipsoid that the spot is outside of.
    void (*cross_crown)(const CrownView& crown, const DayFrames& frames,
                        std::span<const std::uint16_t> groups, ConeCrossings& out) = nullptr;
    /// As follow_cone, for every shape.
    void (*follow_crown)(const CrownView& crown, const float* directions, int from, int to,
                         std::uint8_t* enters, std::uint8_t* leaves) = nullptr;
    /// Mean light on each panel through all of its layers together.
    void (*light_panels)(std::span<const LightPanel> panels, std::span<const PanelLayer> layers,
                         PanelRoom& room, float* light) = nullptr;
};

struct LightKernels {
    std::string name;
    ConeKernels cone;
    CrownKernels crown;
};

/// `target` is one of Highway's target bits.
[[nodiscard]] ConeKernels cone_kernels_for(std::int64_t target);
[[nodiscard]] CrownKernels crown_kernels_for(std::int64_t target);

/// By name; the widest when it is empty.
[[nodiscard]] const LightKernels& light_kernels(std::string_view name = {});
[[nodiscard]] const std::vector<LightKernels>& all_light_kernels();

}  // namespace sunfleck::rays
