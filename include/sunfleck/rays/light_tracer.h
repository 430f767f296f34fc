#pragma once

#include "sunfleck/base/vec3.h"
#include "sunfleck/geometry/garden.h"
#include "sunfleck/rays/engine.h"
#include "sunfleck/rays/light_spans.h"
#include "sunfleck/rays/sun_table.h"

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

/// Whole days and years of sun at many spots: one interface, engines behind it.
namespace sunfleck::rays {

/// A point that looks at the sun.
struct LightSpot {
    Vec3 point;                   ///< in world coordinates
    std::optional<Vec3> outward;  ///< on a pot's wall: sees only where dot(outward, d) > 0
};

/// What of the garden is traced.
enum class LightKind {
    everything,  ///< opaque bodies, fences, cloths, laths and crowns
    /// Opaque bodies, and laths resolved from any distance; what lets light through is not there.
    opaque_only,
};

struct LightRequest {
    std::span<const LightSpot> spots;
    LightKind kind = LightKind::everything;
    bool resolves_all_laths = false;  ///< laths cast sharp shadows from any distance
    /// Cuts spans in which the transmittance varies into equal parts of at most so many minutes,
    /// so that windows of the clock see how it varies; 0: the mean of the whole span is kept.
    int longest_varying_min = 0;
    int thread_count = 0;  ///< 0: all cores; the result does not depend on it
    /// One of simd_targets(); empty: the widest that this processor has. The result does not
    /// depend on it.
    std::string simd_target;
};

/// Traces a garden under the sun of one table, each day with what hangs and is in leaf on its
/// date. The middle of the disk is traced: see SunTableOptions::declination_shift.
///
/// For every sample asked (see SunTableDay), the spot is in a span of the answer when a ray to the
/// sun's middle is not blocked, in a full one when it meets nothing at all. The far horizon and
/// the ground block, too. All calls may run at the same time on several threads.
class LightTracer {
  public:
    virtual ~LightTracer() = default;
    [[nodiscard]] virtual const SunTable& sun() const = 0;
    [[nodiscard]] virtual LightSpans trace(const LightRequest& request) const = 0;

  protected:
    LightTracer() = default;
    LightTracer(const LightTracer&) = default;
    LightTracer& operator=(const LightTracer&) = default;
};

/// The fast engine. Solves when the sun's path enters and leaves each body's outline as seen from
/// the spot, so no step can miss what is thin; ends of spans are exact to a tick. A sample whose
/// ray passes within 1e-6 radians of an edge may fall on either side. `garden` and `sun` must
/// outlive it.
[[nodiscard]] std::unique_ptr<LightTracer> make_solving_tracer(const geometry::Garden& garden,
                                                               const SunTable& sun);

/// The reference: asks `engine` at every sample, slowly. Ends of spans lie midway between two
/// samples. `engine` and `sun` must outlive it.
[[nodiscard]] std::unique_ptr<LightTracer> make_sampling_tracer(const Engine& engine,
                                                                const SunTable& sun);

/// The instruction sets for which the fast engine is built and which this processor has, the
/// widest first, such as "AVX3", "AVX2", "SSE4".
[[nodiscard]] std::vector<std::string> simd_targets();

}  // namespace sunfleck::rays
