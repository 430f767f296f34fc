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
    void add_crown(const TracedPiece& piece, std::uint16_t index);
    template <typename Follow>
    void take_crossings(const TracedPiece& piece, std::uint16_t index, const Follow& follow);
    void add_outside(TickSpan touch, const TracedPiece& piece, std::uint16_t index, std::size_t day,
                     int from, int to);
    [[nodiscard]] const float* directions_of(std::size_t day) const;
    void add_followed(std::size_t day, int from, int to, const TracedPiece& piece,
                      std::uint16_t index);
    void add_all_round(const TracedPiece& piece, std::uint16_t index);
    void add_ray_by_ray(const TracedPiece& piece, std::uint16_t index);
    void add_ray_by_ray(const TracedPiece& piece, std::uint16_t index, std::size_t day, int from,
                        int to);
    void add_span(const TracedPiece& piece, std::uint16_t index, std::size_t day, int from, int to,
                  float transmittance);
    [[nodiscard]] bool take_layers(std::size_t day, std::span<const VeilItem* const> veils,
                                   float& constant);
    [[nodiscard]] double mean_of_rays(std::size_t day, TickSpan span,
                                      std::span<const VeilItem* const> veils) const;
    double mean_transmittance(std::size_t day, TickSpan span,
                              std::span<const VeilItem* const> veils) override;

    TraceScene scene_;
    ConeViewer viewer_;
    ConeCrossings crossings_;
    Vec3 spot_;
    SpotItems items_;
    DaySweep sweep_;
    std::vector<std::uint16_t> groups_;
    std::vector<CrownView> crowns_;  // by traced piece
    std::vector<CrownLayer> layers_;
    std::vector<std::uint8_t> enters_;
    std::vector<std::uint8_t> leaves_;
};

}  // namespace sunfleck::rays
