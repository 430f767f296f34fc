#pragma once

#include "rays/day_sweep.h"
#include "rays/trace_scene.h"

#include <cstdint>
#include <vector>

namespace sunfleck::rays {

/// Light through veils that vary, for one spot after another.
class VeilMixer final : public VeilLight {
  public:
    explicit VeilMixer(const TraceScene& scene);

    void begin(Vec3 spot);
    double mean_transmittance(std::size_t day, TickSpan span,
                              std::span<const VeilItem* const> veils) override;

  private:
    [[nodiscard]] const CrownView& crown(std::uint16_t piece);
    [[nodiscard]] bool take_layers(std::size_t day, std::span<const VeilItem* const> veils,
                                   float& constant);
    [[nodiscard]] double mean_of_rays(std::size_t day, TickSpan span,
                                      std::span<const VeilItem* const> veils) const;
    [[nodiscard]] double light_of_ray(std::size_t day, Vec3 direction,
                                      std::span<const VeilItem* const> veils) const;

    TraceScene scene_;
    Vec3 spot_;
    std::uint32_t spot_number_ = 0;
    std::vector<CrownView> crowns_;              // by traced piece
    std::vector<std::uint32_t> crown_made_for_;  // number of the spot
    std::vector<CrownLayer> layers_;
};

}  // namespace sunfleck::rays
