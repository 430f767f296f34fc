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
// Groups of days whose samples fit a processor's own cache: 64 days take half a megabyte.
constexpr int groups_at_once = 4;

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
    // Some days of all spots, then the next days: the sun's table of those days stays at hand.
    static void trace_some(const TraceScene& scene, std::span<const LightSpot> spots,
                           std::size_t first, LightSpans& light) {
        SpotTracer tracer(scene);
        const std::size_t count = std::min(spots_per_task, spots.size() - first);
        std::vector<DaySpans> days(count);
        const auto groups = static_cast<std::uint16_t>(scene.frames->lowest_sine.size());
        for (std::uint16_t group = 0; group < groups; group += groups_at_once) {
            const int end = std::min(group + groups_at_once, int{groups});
            tracer.set_groups(group, static_cast<std::uint16_t>(end));
            for (std::size_t i = 0; i < count; ++i) tracer.trace(spots[first + i], days[i]);
        }
        for (std::size_t i = 0; i < count; ++i) {
            light.set_spot(first + i, days[i].first, days[i].spans);
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
