#pragma once

#include "rays/cone_view.h"
#include "rays/day_items.h"
#include "rays/day_sweep.h"
#include "rays/light_kernels.h"
#include "rays/sky_windows.h"
#include "rays/traced_garden.h"
#include "sunfleck/rays/light_tracer.h"

#include <array>
#include <cstdint>
#include <span>
#include <vector>

namespace sunfleck::rays {

/// What all spots share.
struct TraceScene {
    const geometry::Garden* garden = nullptr;
    const SunTable* sun = nullptr;
    const DayFrames* frames = nullptr;
    const SkyWindows* sky = nullptr;
    const LightKernels* kernels = nullptr;
    std::span<const TracedPiece> pieces;
};

/// What stands before the sun at a spot.
struct SpotItems {
    DayItems<ShadeItem> shades;
    DayItems<VeilItem> veils;
};

/// Traces one spot after another; one for each thread.
class SpotTracer : private VeilLight {
  public:
    explicit SpotTracer(const TraceScene& scene);

    /// The year of a spot.
    void trace(const LightSpot& spot, std::vector<std::uint32_t>& first,
               std::vector<LightSpan>& spans);

  private:
    void add_piece(const TracedPiece& piece, std::uint16_t index);
    void add_cone(const TracedPiece& piece, std::uint16_t index);
    void add_crossings(const ConePlanes& cone, const TracedPiece& piece, std::uint16_t index);
    void follow(const ConePlanes& cone, std::size_t day, int from, int to, const TracedPiece& piece,
                std::uint16_t index);
    void add_all_round(const TracedPiece& piece, std::uint16_t index);
    void add_ray_by_ray(const TracedPiece& piece, std::uint16_t index);
    void add_ray_by_ray(const TracedPiece& piece, std::uint16_t index, std::size_t day, int from,
                        int to);
    void add_span(const TracedPiece& piece, std::uint16_t index, std::size_t day, int from, int to,
                  float transmittance);
    double mean_transmittance(std::size_t day, TickSpan span,
                              std::span<const VeilItem* const> veils) override;

    TraceScene scene_;
    ConeViewer viewer_;
    ConeCrossings crossings_;
    Vec3 spot_;
    SpotItems items_;
    DaySweep sweep_;
    std::vector<std::uint16_t> groups_;
    std::vector<std::uint8_t> enters_;
    std::vector<std::uint8_t> leaves_;
};

}  // namespace sunfleck::rays
