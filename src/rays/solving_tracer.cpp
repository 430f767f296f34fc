#include "rays/day_frames.h"
#include "rays/light_kernels.h"
#include "rays/sky_windows.h"
#include "rays/spot_tracer.h"
#include "rays/traced_garden.h"
#include "sunfleck/base/parallel.h"
#include "sunfleck/base/require.h"
#include "sunfleck/rays/light_tracer.h"

#include <algorithm>

namespace sunfleck::rays {
namespace {

// Spots that one task traces: enough to pay for its memory, few enough to share out.
constexpr std::size_t spots_per_task = 16;

class SolvingTracer final : public LightTracer {
  public:
    SolvingTracer(const geometry::Garden& garden, const SunTable& sun)
        : garden_(&garden), sun_(&sun), frames_(day_frames(sun)), sky_(sun, garden.horizon, 0) {}

    [[nodiscard]] const SunTable& sun() const override { return *sun_; }

    [[nodiscard]] LightSpans trace(const LightRequest& request) const override {
        std::vector<TracedPiece> pieces;
        const TraceChoice choice{.kind = request.kind,
                                 .resolves_all_laths = request.resolves_all_laths};
        for (std::size_t i = 0; i < garden_->pieces.size(); ++i) {
            add_traced_piece(*garden_, static_cast<std::uint32_t>(i), *sun_, choice, pieces);
        }
        const TraceScene scene{.garden = garden_,
                               .sun = sun_,
                               .frames = &frames_,
                               .sky = &sky_,
                               .kernels = &light_kernels(request.simd_target),
                               .pieces = pieces,
                               .longest_varying_min = request.longest_varying_min};
        LightSpans light(request.spots.size(), sun_->days().size());
        const std::size_t tasks = (request.spots.size() + spots_per_task - 1) / spots_per_task;
        parallel_for_each_index(tasks, request.thread_count, [&](std::size_t task) {
            trace_some(scene, request.spots, task * spots_per_task, light);
        });
        return light;
    }

  private:
    static void trace_some(const TraceScene& scene, std::span<const LightSpot> spots,
                           std::size_t first, LightSpans& light) {
        SpotTracer tracer(scene);
        std::vector<std::uint32_t> starts;
        std::vector<LightSpan> spans;
        const std::size_t end = std::min(first + spots_per_task, spots.size());
        for (std::size_t i = first; i < end; ++i) {
            tracer.trace(spots[i], starts, spans);
            light.set_spot(i, starts, spans);
        }
    }

    const geometry::Garden* garden_;
    const SunTable* sun_;
    DayFrames frames_;
    SkyWindows sky_;
};

}  // namespace

std::unique_ptr<LightTracer> make_solving_tracer(const geometry::Garden& garden,
                                                 const SunTable& sun) {
    SUNFLECK_REQUIRE(garden.pieces.size() < 60000 && sun.days().size() < 60000,
                     "pieces and days are counted in 16 bits");
    return std::make_unique<SolvingTracer>(garden, sun);
}

std::vector<std::string> simd_targets() {
    std::vector<std::string> names;
    for (const LightKernels& kernels : all_light_kernels()) names.push_back(kernels.name);
    return names;
}

}  // namespace sunfleck::rays
